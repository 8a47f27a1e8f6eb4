import { mkdtempSync, rmSync } from "node:fs";
import { request } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { FastifyRequest } from "fastify";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { demoNurse, openOrMakeDemo } from "../../record/demo/index.ts";
import { type Served, serve } from "../index.ts";
import { demoMayEnter } from "./index.ts";

let folder: string;
let served: Served;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "roundel-demo-"));
  vi.stubEnv("XDG_CONFIG_HOME", join(folder, "settings"));
  const { store } = await openOrMakeDemo(join(folder, "demo"), { nowMs: Date.now(), zone: "Europe/London" });
  await store.close();
  served = await serve({
    dataDir: join(folder, "demo"),
    webDir: null,
    port: 0,
    stopOnSignals: false,
    demoSignIn: true,
  });
}, 60_000);
afterAll(async () => {
  await served.close();
  rmSync(folder, { recursive: true });
});

type Headers = Record<string, string>;

/** Asks by the number of the address, so that the name may be anything. */
function session(
  headers: Headers,
  port = served.port,
): Promise<{ signedIn?: boolean; account?: unknown; status: number }> {
  return new Promise((resolve, reject) => {
    const asked = request({ host: "127.0.0.1", port, path: "/api/session", headers }, async (reply) => {
      let text = "";
      for await (const chunk of reply) text += chunk;
      resolve({ ...JSON.parse(text), status: reply.statusCode });
    });
    asked.on("error", reject).end();
  });
}

describe("the demo", () => {
  it("signs in whoever opens it on this machine, as the invented lead", async () => {
    for (const host of ["localhost", "127.0.0.1", `localhost:${served.port}`]) {
      const { signedIn, account } = await session({ host });
      expect(signedIn).toBe(true);
      expect(account).toMatchObject({ accountId: demoNurse.id, displayName: demoNurse.name, role: "lead" });
    }
    expect(served.setUpLinks).toEqual([]);
  });

  it.each([
    [{ "x-forwarded-for": "203.0.113.9" }],
    [{ "x-forwarded-host": "bench.example" }],
    [{ forwarded: "for=203.0.113.9" }],
    [{ "sec-fetch-site": "cross-site" }],
    [{ "sec-fetch-site": "same-site" }],
  ])("does not sign in what was passed on or asked for from elsewhere: %j", async (headers) => {
    expect((await session({ host: "localhost", ...headers } as Headers)).signedIn).toBe(false);
  });

  it("does not answer under a name of another's at all", async () => {
    expect((await session({ host: "evil.example" })).status).toBe(403);
  });

  it("does not sign in under a name that was allowed, nor without having been asked for the demo", async () => {
    const shared = { dataDir: join(folder, "demo"), webDir: null, port: 0, stopOnSignals: false };
    const named = await serve({ ...shared, demoSignIn: true, allowedHosts: ["desk.lan"] });
    expect((await session({ host: "desk.lan" }, named.port)).signedIn).toBe(false);
    await named.close();
    const plain = await serve(shared);
    expect((await session({ host: "localhost" }, plain.port)).signedIn).toBe(false);
    await plain.close();
    const publicUrl = new URL("https://demo.example");
    const proxied = await serve({ ...shared, demoSignIn: true, behindProxy: "127.0.0.1", publicUrl });
    expect((await session({ host: "localhost" }, proxied.port)).signedIn).toBe(false);
    await proxied.close();
  });

  it("has an account that no password and no recovery opens", async () => {
    const post = (path: string, body: object, cookie = "") =>
      fetch(`${served.url}/api/${path}`, {
        method: "POST",
        headers: { "content-type": "application/json", cookie },
        body: JSON.stringify(body),
      });
    expect((await post("sign-in", { signInName: "demo", password: "" })).status).toBe(401);
    const reply = await fetch(`${served.url}/api/session`);
    const cookie = reply.headers
      .getSetCookie()
      .map((one) => one.split(";")[0])
      .join("; ");
    expect((await post(`accounts/${demoNurse.id}/recovery`, {}, cookie)).status).toBe(404);
  });
});

describe("whether a request comes from this machine", () => {
  const from = (remoteAddress: string, localAddress: string, host = "localhost") =>
    demoMayEnter({
      raw: { socket: { remoteAddress, localAddress } },
      headers: { host },
    } as unknown as FastifyRequest);

  it.each([
    ["127.0.0.1", "127.0.0.1", true],
    ["::1", "::1", true],
    ["::ffff:127.0.0.1", "::ffff:127.0.0.1", true],
    ["192.0.2.7", "192.0.2.10", false],
    ["192.0.2.7", "127.0.0.1", false],
    ["::ffff:192.0.2.7", "::ffff:192.0.2.10", false],
    ["fe80::1", "fe80::2", false],
    ["127.0.0.1.evil.example", "127.0.0.1", false],
  ])("is told by both ends of the connection: from %s to %s: %s", (remote, local, may) => {
    expect(from(remote, local)).toBe(may);
  });
});
