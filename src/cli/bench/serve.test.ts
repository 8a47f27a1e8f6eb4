import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { type AddressInfo, createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { roundel, roundelFile } from "../../../test/cli/roundel.ts";

/** The first start may have to build. */
const aWhileMs = 120_000;

const startFile = fileURLToPath(new URL("../../../scripts/start.mjs", import.meta.url));

let folder: string;
let running: ChildProcess[] = [];
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "serve-"));
  vi.stubEnv("XDG_CONFIG_HOME", join(folder, "settings"));
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
): Promise<{ clinic: { details: { name: string } } | null; demo: boolean; signedIn: boolean }> {
  return (await fetch(new URL("/api/session", url))).json();
}

describe("roundel serve", () => {
  it("opens an empty folder that asks to be set up, and stops cleanly on Ctrl-C", async () => {
    const bench = await opened(roundelFile, ["serve", "--data", join(folder, "new"), "--port", "0"]);
    expect(bench.url).toMatch(/^http:\/\/localhost:\d+\/$/);
    expect(await session(bench.url)).toMatchObject({ clinic: null, demo: false, signedIn: false });
    await expect.poll(bench.said).toMatch(/Ctrl-C stops it/);
    expect(bench.said()).toMatch(new RegExp(`makes the lead's account.*\n  ${bench.url}set-up#[\\w-]{43}\n`));
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

describe("roundel serve over a network", () => {
  const serve = (...args: string[]) =>
    roundel(["serve", "--data", join(folder, "lan"), "--port", "0", ...args]);
  const pem = (name: string, text: string) => {
    writeFileSync(join(folder, name), text);
    return join(folder, name);
  };

  it.each([
    [["--host", "0.0.0.0"], /for anyone on it to read[\s\S]*--tls-cert[\s\S]*--insecure-http/],
    [["--tls-cert", "cert.pem"], /come together: give --tls-cert and --tls-key/],
    [["--tls-cert", "/no/such.pem", "--tls-key", "/no/such.pem"], /cannot be read \(ENOENT\)/],
    [["--public-url", "https://bench.clinic.example"], /needs https/],
    [["--public-url", "bench.clinic.example"], /written like https:/],
    [["--public-url", "https://bench.clinic.example/path"], /written like https:/],
    [["--behind-proxy", "127.0.0.1"], /give --public-url too/],
    [["--home-host", "0.0.0.0"], /add --home-port/],
    [["--home-host", "0.0.0.0", "--home-port", "0"], /The home log at 0\.0\.0\.0 would send/],
  ])("%j is refused with status 2 and what to do", async (args, sentence) => {
    const { status, stderr } = await serve(...args);
    expect(status).toBe(2);
    expect(stderr).toMatch(sentence);
    expect(stderr).not.toMatch(/^\s+at /m);
  });

  it("takes no file for a certificate that is none", async () => {
    const file = pem("notes.txt", "not a certificate");
    const { status, stderr } = await serve("--tls-cert", file, "--tls-key", file);
    expect([status, stderr]).toMatchObject([2, expect.stringContaining("is not PEM")]);
  });

  it("does it in plain http where that was asked for in so many words, and warns", async () => {
    const args = [
      "serve",
      "--data",
      join(folder, "lan"),
      "--port",
      "0",
      "--host",
      "0.0.0.0",
      "--insecure-http",
    ];
    const bench = await opened(roundelFile, args);
    await expect.poll(bench.said).toContain("Warning: over http");
    bench.stop();
    expect(await bench.ended).toBe(0);
  });
});

describe("npm start", { timeout: aWhileMs }, () => {
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
      signedIn: true,
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
