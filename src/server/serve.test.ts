import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { clinicDetails } from "../../test/record/samples.ts";
import { openSqlite, recordFile } from "../record/store/index.ts";
import { ListenError, type Served, serve } from "./index.ts";

let dataDir: string;
let served: Served | null = null;
beforeEach(() => {
  dataDir = join(mkdtempSync(join(tmpdir(), "roundel-serve-")), "clinic");
  vi.stubEnv("XDG_CONFIG_HOME", join(dataDir, "..", "settings"));
});
afterEach(async () => {
  await served?.close();
  served = null;
  rmSync(join(dataDir, ".."), { recursive: true });
});

const start = async (more: object = {}) => {
  served = await serve({ dataDir, webDir: null, port: 0, stopOnSignals: false, ...more });
  return served;
};

const setUp = (url: string, link: string) =>
  fetch(`${url}/api/set-up`, {
    method: "POST",
    headers: { "content-type": "application/json", origin: url },
    body: JSON.stringify({
      token: link.split("#")[1],
      details: clinicDetails,
      account: { signInName: "marlow", displayName: "Ines Marlow", password: "a quiet blue gate" },
    }),
  });

describe("serving a folder", () => {
  it("makes it, answers on loopback and tells where", async () => {
    const { url, host, port } = await start();
    expect(url).toBe(`http://localhost:${port}`);
    expect(host).toBe("127.0.0.1");
    const session = (await (await fetch(`${url}/api/session`)).json()) as { clinic: unknown };
    expect(session.clinic).toBeNull();
    expect(existsSync(recordFile(dataDir))).toBe(true);
  });

  it("prints a link for its first lead until there is one, and keeps what was acknowledged", async () => {
    const { url, setUpLinks, close, closed } = await start();
    expect(setUpLinks).toEqual([expect.stringMatching(`^${url}/set-up#[\\w-]{43}$`)]);
    const reply = await setUp(url, setUpLinks[0]!);
    expect(reply.status).toBe(200);
    await Promise.all([close(), close()]);
    await closed;
    await expect(fetch(`${url}/api/session`)).rejects.toThrow();
    const store = await openSqlite(recordFile(dataDir));
    expect(await store.clinicIds()).toHaveLength(1);
    await store.close();
    expect((await start()).setUpLinks).toEqual([]);
  });

  it.each(["SIGINT", "SIGTERM"] as const)("ends on %s", async (signal) => {
    const before = process.listenerCount(signal);
    const { closed } = await start({ stopOnSignals: true });
    expect(process.listenerCount(signal)).toBe(before + 1);
    process.emit(signal);
    await closed;
    expect(process.listenerCount(signal)).toBe(before);
  });

  it("refuses a name that is not its own", async () => {
    const { url } = await start({ allowedHosts: ["clinic-desk.lan"] });
    const { port } = new URL(url);
    const { request } = await import("node:http");
    const status = (host: string) =>
      new Promise<number | undefined>((resolve) => {
        request({ port, host: "127.0.0.1", path: "/api/session", headers: { host } }, (reply) =>
          resolve(reply.resume().statusCode),
        ).end();
      });
    expect(await status("evil.example")).toBe(403);
    expect(await status("clinic-desk.lan")).toBe(200);
  });
});

describe("an address that cannot be had", () => {
  it("is told in a sentence where another program has the port, and nothing is left open", async () => {
    const other = createServer().listen(0, "127.0.0.1");
    await new Promise((resolve) => other.once("listening", resolve));
    const { port } = other.address() as AddressInfo;
    const error = await start({ port }).catch((thrown) => thrown);
    expect(error).toBeInstanceOf(ListenError);
    expect(error).toMatchObject({ code: "portTaken", port });
    expect(error.message).toContain(`Port ${port} is taken`);
    other.close();
    await start();
  });

  it("is told in a sentence where the machine has no such address", async () => {
    const error = await start({ host: "203.0.113.7", insecureHttp: true }).catch((thrown) => thrown);
    expect(error).toMatchObject({ code: "addressUnknown" });
  });
});

describe("the log", () => {
  it("holds routes and ids, and no name, no secret, no search and no address of a page", async () => {
    const { url, port, setUpLinks, close } = await start();
    const reply = await setUp(url, setUpLinks[0]!);
    const cookie = reply.headers.getSetCookie().map((one) => one.split(";")[0]!);
    const { account } = (await reply.json()) as { account: { accountId: string } };
    const headers = { "content-type": "application/json", cookie: cookie.join("; ") };
    const post = (path: string, body: object) =>
      fetch(`${url}${path}`, { method: "POST", headers, body: JSON.stringify(body) });
    await post("/api/sign-in", { signInName: "marlow", password: "wrong but secret" });
    await fetch(`${url}/api/people?text=Edda+Voss`, { headers });
    await fetch(`${url}/people/Edda`, { headers });
    await post("/api/people/Edda%20Voss/stomas/x/cutting-sheet", {});
    await close();
    const text = readFileSync(join(dataDir, "bench.log"), "utf8");
    const lines = text
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(lines.map(({ msg }) => msg)).toEqual([
      `Server listening at http://127.0.0.1:${port}`,
      "write",
      "write",
      "write",
    ]);
    const { accountId } = account;
    expect(lines[1]).toMatchObject({ method: "POST", route: "/api/set-up", status: 200, accountId });
    expect(lines[2]).toMatchObject({ route: "/api/sign-in", status: 401 });
    for (const secret of [...cookie.map((one) => one.split("=")[1]!), setUpLinks[0]!.split("#")[1]!]) {
      expect(secret).toMatch(/^[\w-]{43}$/);
      expect(text).not.toContain(secret);
    }
    expect(text).not.toMatch(/Edda|Voss|Harbour|Marlow|marlow|quiet blue|secret|roundel=/);
  });
});
