import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { type AddressInfo, createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { roundel, roundelFile } from "../../../test/cli/roundel.ts";

const startFile = fileURLToPath(new URL("../../../scripts/start.mjs", import.meta.url));

let folder: string;
let running: ChildProcess[] = [];
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "serve-"));
});
afterEach(() => {
  for (const child of running) child.kill("SIGKILL");
  running = [];
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Starts a bench and waits until it says its address. */
async function opened(program: string, args: string[], env: NodeJS.ProcessEnv = {}) {
  const child = spawn(process.execPath, [program, ...args], { env: { ...process.env, ...env } });
  running.push(child);
  const ended = new Promise<number | null>((resolve) => child.once("close", resolve));
  let said = "";
  const url = await new Promise<string>((resolve, reject) => {
    for (const stream of [child.stdout, child.stderr]) {
      stream.on("data", (chunk) => {
        said += chunk;
        const found = /open at (http:\S+)/.exec(said);
        if (found) resolve(found[1]!);
      });
    }
    ended.then((status) => reject(new Error(`ended with ${status}: ${said}`)));
  });
  return { url, said: () => said, stop: () => child.kill("SIGINT"), ended };
}

async function session(
  url: string,
): Promise<{ clinic: { details: { name: string } } | null; demo: boolean }> {
  return (await fetch(new URL("/api/session", url))).json();
}

describe("roundel serve", () => {
  it("opens an empty folder that asks to be set up, and stops cleanly on Ctrl-C", async () => {
    const bench = await opened(roundelFile, ["serve", "--data", join(folder, "new"), "--port", "0"]);
    expect(bench.url).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect(await session(bench.url)).toMatchObject({ clinic: null, demo: false });
    bench.stop();
    expect(await bench.ended).toBe(0);
    expect(bench.said()).toContain(`Its data lie in ${join(folder, "new")}. Ctrl-C stops it.`);
  });

  it("says that a port is taken and what to do, with status 1", async () => {
    const other = createServer().listen(0, "127.0.0.1");
    await new Promise((resolve) => other.once("listening", resolve));
    const { port } = other.address() as AddressInfo;
    const { status, stderr } = await roundel([
      "serve",
      "--data",
      join(folder, "new"),
      "--port",
      String(port),
    ]);
    other.close();
    expect(status).toBe(1);
    expect(stderr).toContain(String(port));
    expect(stderr).toMatch(/--port/);
    expect(stderr).not.toMatch(/^\s+at /m);
  });
});

describe("npm start", () => {
  it("opens the folder that is named, and takes the port from the environment", async () => {
    const bench = await opened(startFile, ["--data", join(folder, "named")], { PORT: "0" });
    expect(await session(bench.url)).toMatchObject({ clinic: null, demo: false });
    bench.stop();
    expect(await bench.ended).toBe(0);
  });

  it("opens the demo with --demo, and keeps it", async () => {
    const demo = ["--demo", "--data", join(folder, "demo"), "--port", "0"];
    const first = await opened(startFile, demo);
    expect(first.said()).toContain("The demo was made in");
    expect(await session(first.url)).toMatchObject({
      demo: true,
      clinic: { details: { name: expect.any(String) } },
    });
    first.stop();
    await first.ended;
    const second = await opened(startFile, demo);
    expect(second.said()).not.toContain("The demo was made in");
    second.stop();
    expect(await second.ended).toBe(0);
  });
});
