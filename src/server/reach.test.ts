import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { request as plainly } from "node:http";
import { request as securely } from "node:https";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { type Served, serve, type Tls, UnsafeReach } from "./index.ts";
import { refuseUnsafe } from "./reach.ts";

let folder: string;
let tls: Tls;
let served: Served | null = null;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "roundel-reach-"));
  vi.stubEnv("XDG_CONFIG_HOME", join(folder, "settings"));
  const [cert, key] = [join(folder, "cert.pem"), join(folder, "key.pem")];
  const asked = [
    "req",
    "-x509",
    "-newkey",
    "ec",
    "-pkeyopt",
    "ec_paramgen_curve:P-256",
    "-nodes",
    "-days",
    "1",
  ];
  execFileSync("openssl", [...asked, "-subj", "/CN=localhost", "-keyout", key, "-out", cert], {
    stdio: "pipe",
  });
  tls = { cert: readFileSync(cert), key: readFileSync(key) };
});
afterEach(async () => {
  await served?.close();
  served = null;
});
afterAll(() => rmSync(folder, { recursive: true }));

const start = async (more: object) => {
  const shared = { dataDir: join(folder, "clinic"), webDir: null, port: 0, stopOnSignals: false };
  served = await serve({ ...shared, ...more });
  return served;
};

interface Asked {
  method?: string;
  path?: string;
  headers?: Record<string, string>;
  host?: string;
  body?: string;
  https?: boolean;
}

function ask(
  port: number,
  { path = "/api/session", https = false, body, host = "127.0.0.1", ...more }: Asked,
) {
  return new Promise<{
    status: number;
    headers: NodeJS.Dict<string | string[]>;
    json: Record<string, never>;
  }>((resolve, reject) => {
    const options = { host, port, path, rejectUnauthorized: false, ...more };
    const asked = (https ? securely : plainly)(options, async (reply) => {
      let text = "";
      for await (const chunk of reply) text += chunk;
      resolve({ status: reply.statusCode!, headers: reply.headers, json: JSON.parse(text || "{}") });
    });
    asked.on("error", reject);
    asked.end(body);
  });
}

const publicUrl = new URL("https://bench.clinic.example");
const json = { "content-type": "application/json" };

describe("an address", () => {
  const told = (guarding: Parameters<typeof refuseUnsafe>[1]) => {
    try {
      refuseUnsafe("The bench", guarding);
      return "served";
    } catch (error) {
      if (error instanceof UnsafeReach) return error.message.split("\n")[0];
      throw error;
    }
  };

  it.each([
    [{ host: "127.0.0.1" }],
    [{ host: "::1" }],
    [{ host: "localhost" }],
    [{ host: "192.0.2.10", tls: { cert: Buffer.alloc(0), key: Buffer.alloc(0) } }],
    [{ host: "192.0.2.10", behindProxy: "192.0.2.1", publicUrl }],
    [{ host: "127.0.0.1", behindProxy: "127.0.0.1", publicUrl }],
    [{ host: "192.0.2.10", insecureHttp: true }],
  ])("as in %j is served", (guarding) => {
    expect(told(guarding)).toBe("served");
  });

  it.each([
    [{ host: "192.0.2.10" }, "for anyone on it to read"],
    [{ host: "0.0.0.0" }, "for anyone on it to read"],
    [{ host: "::" }, "for anyone on it to read"],
    [{ host: "127.0.0.1.example" }, "for anyone on it to read"],
    [{ host: "127.0.0.1", behindProxy: "127.0.0.1" }, "give --public-url too"],
    [{ host: "127.0.0.1", behindProxy: "proxy.lan", publicUrl }, "named by its address"],
    [{ host: "127.0.0.1", publicUrl }, "needs https"],
    [
      { host: "127.0.0.1", behindProxy: "127.0.0.1", publicUrl: new URL("http://bench.example") },
      "has to begin with https",
    ],
  ])("as in %j is refused", (guarding, sentence) => {
    expect(told(guarding)).toContain(sentence);
  });

  it("of the home log needs https even where the bench was told to go without", async () => {
    const home = { host: "0.0.0.0", port: 0 };
    await expect(start({ home, insecureHttp: true })).rejects.toBeInstanceOf(UnsafeReach);
  });
});

describe("over https", () => {
  it("the bench insists on it, and gives cookies that plain http neither sets nor sees", async () => {
    const { url, port, setUpLinks } = await start({ tls });
    expect(url).toBe(`https://localhost:${port}`);
    const { headers } = await ask(port, { https: true });
    expect(headers["strict-transport-security"]).toBe("max-age=31536000");
    const body = JSON.stringify({
      token: setUpLinks[0]!.split("#")[1],
      details: { name: "Hill", timeZone: "Europe/London", nursePhone: "555-0100", paper: "A4" },
      account: { signInName: "ines", displayName: "Ines Varga", password: "a quiet blue gate" },
    });
    const own = { ...json, origin: url, host: `localhost:${port}` };
    const made = await ask(port, { https: true, method: "POST", path: "/api/set-up", headers: own, body });
    expect(made.status).toBe(200);
    const cookies = made.headers["set-cookie"] as string[];
    expect(cookies).toHaveLength(2);
    for (const cookie of cookies)
      expect(cookie).toMatch(/^__Host-roundel(-device)?=.*; Path=\/; HttpOnly; Secure/);
    for (const cookie of cookies) expect(cookie).not.toContain("Domain");
  });

  it("another page of the same name over plain http may not write", async () => {
    const { port } = await start({ tls });
    const headers = { ...json, origin: `http://localhost:${port}`, host: `localhost:${port}` };
    const answer = await ask(port, {
      https: true,
      method: "POST",
      path: "/api/sign-out",
      headers,
      body: "{}",
    });
    expect([answer.status, answer.json.error]).toMatchObject([403, { code: "originRefused" }]);
  });

  it("the home log has an address of its own beside the bench's", async () => {
    const { url, homeUrl, port } = await start({ home: { tls } });
    expect(homeUrl).toMatch(/^https:\/\/localhost:\d+$/);
    expect(homeUrl).not.toContain(String(port));
    const homePort = Number(new URL(homeUrl!).port);
    expect((await ask(homePort, { https: true, path: "/api/home/session" })).status).toBe(200);
    expect((await ask(homePort, { https: true })).status).toBe(404);
    expect((await ask(port, { path: "/api/home/session" })).status).toBe(404);
    expect(url).toMatch(/^http:/);
  });
});

describe("behind a proxy", () => {
  const proxied = { behindProxy: "127.0.0.1", publicUrl };
  const host = "bench.clinic.example";

  it("links and origins are the public address's, whichever name the proxy asks under", async () => {
    const { url, port, setUpLinks } = await start(proxied);
    expect(url).toBe(publicUrl.origin);
    if (setUpLinks[0]) expect(setUpLinks[0]).toContain(`${publicUrl.origin}/set-up#`);
    for (const name of [host, "127.0.0.1"]) {
      const headers = { ...json, origin: publicUrl.origin, host: name };
      const answer = await ask(port, { method: "POST", path: "/api/sign-out", headers, body: "{}" });
      expect([name, answer.status, answer.json.error]).toMatchObject([name, 401, { code: "signInFirst" }]);
    }
    const foreign = { ...json, origin: "https://evil.example", host };
    const answer = await ask(port, { method: "POST", path: "/api/sign-out", headers: foreign, body: "{}" });
    expect(answer.status).toBe(403);
  });

  it("insists on https and knows that passkeys work there", async () => {
    const { port } = await start(proxied);
    const { headers, json } = await ask(port, { headers: { host } });
    expect(headers["strict-transport-security"]).toBe("max-age=31536000");
    expect(json.passkeysPossible).toBe(true);
  });

  it("believes the proxy who the sender is, and nobody else", async () => {
    const trying = async (port: number, sender: string) => {
      const headers = { ...json, host: "localhost", "x-forwarded-for": sender };
      const path = "/api/join/look";
      const body = JSON.stringify({ token: "x" });
      return (await ask(port, { method: "POST", path, headers, body })).status;
    };
    const behind = await start(proxied);
    for (let tries = 0; tries < 30; tries += 1) await trying(behind.port, "203.0.113.1");
    expect(await trying(behind.port, "203.0.113.1")).toBe(429);
    expect(await trying(behind.port, "203.0.113.2")).toBe(410);
    await behind.close();
    const open = await start({});
    for (let tries = 0; tries < 30; tries += 1) await trying(open.port, `203.0.113.${tries}`);
    expect(await trying(open.port, "203.0.113.200")).toBe(429);
  });

  const lan = Object.values(networkInterfaces())
    .flatMap((addresses) => addresses ?? [])
    .find(({ internal, family }) => !internal && family === "IPv4")?.address;

  it.skipIf(lan === undefined)("answers nobody who comes past the proxy", async () => {
    const { port } = await start({ ...proxied, host: "0.0.0.0", behindProxy: "192.0.2.1" });
    expect((await ask(port, { host: lan, headers: { host } })).status).toBe(403);
    expect((await ask(port, { headers: { host } })).status).toBe(200);
  });
});
