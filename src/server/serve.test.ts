import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicDetails } from "../../test/record/samples.ts";
import { openSqlite, recordFile } from "../record/store/index.ts";
import { ListenError, type Served, serve } from "./index.ts";

let dataDir: string;
let served: Served | null = null;
beforeEach(() => {
  dataDir = join(mkdtempSync(join(tmpdir(), "roundel-serve-")), "clinic");
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

describe("serving a folder", () => {
  it("makes it, answers on loopback and tells where", async () => {
    const { url, host, port } = await start();
    expect(url).toBe(`http://127.0.0.1:${port}`);
    expect(host).toBe("127.0.0.1");
    const session = (await (await fetch(`${url}/api/session`)).json()) as { clinic: unknown };
    expect(session.clinic).toBeNull();
    expect(existsSync(recordFile(dataDir))).toBe(true);
  });

  it("keeps what was acknowledged, and closes the record when it ends", async () => {
    const { url, close, closed } = await start();
    const reply = await fetch(`${url}/api/clinic`, {
      method: "POST",
      headers: { "content-type": "application/json", origin: url },
      body: JSON.stringify({ details: clinicDetails }),
    });
    expect(reply.status).toBe(200);
    await Promise.all([close(), close()]);
    await closed;
    await expect(fetch(`${url}/api/session`)).rejects.toThrow();
    const store = await openSqlite(recordFile(dataDir));
    expect(await store.clinicIds()).toHaveLength(1);
    await store.close();
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
    const error = await start({ host: "203.0.113.7" }).catch((thrown) => thrown);
    expect(error).toMatchObject({ code: "addressUnknown" });
  });
});

describe("the log", () => {
  it("holds routes and ids, and no name, no search and no address of a page", async () => {
    const { url, close } = await start();
    const headers = { "content-type": "application/json" };
    await fetch(`${url}/api/clinic`, {
      method: "POST",
      headers,
      body: JSON.stringify({ details: clinicDetails }),
    });
    await fetch(`${url}/api/people?text=Edda+Voss`);
    await fetch(`${url}/people/Edda`);
    await fetch(`${url}/api/people/Edda%20Voss/stomas/x/cutting-sheet`, {
      method: "POST",
      headers,
      body: "{}",
    });
    await close();
    const text = readFileSync(join(dataDir, "bench.log"), "utf8");
    const lines = text
      .trim()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(lines.map(({ msg }) => msg)).toEqual([`Server listening at ${url}`, "write", "write"]);
    expect(lines[1]).toMatchObject({ method: "POST", route: "/api/clinic", status: 200 });
    expect(text).not.toMatch(/Edda|Voss|Harbour|Marlow/);
  });
});
