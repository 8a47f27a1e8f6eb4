import { spawn } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { inProject } from "./project.mjs";

/** A project of one source file, with this project's own scripts and libraries. */
let project;
const source = () => join(project, "src", "cli", "main.ts");

beforeAll(() => {
  project = mkdtempSync(join(tmpdir(), "build-"));
  for (const path of ["bin", "scripts", "package.json", "tsconfig.json", "tsconfig.build.json"]) {
    cpSync(inProject(path), join(project, path), { recursive: true });
  }
  mkdirSync(join(project, "src", "cli"), { recursive: true });
  symlinkSync(inProject("node_modules"), join(project, "node_modules"));
  say("one");
});
afterAll(() => rmSync(project, { recursive: true, force: true }));

function say(word) {
  writeFileSync(
    source(),
    `export async function runCommand(): Promise<number> { console.log("${word}"); return 0; }\n`,
  );
}

function command() {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [join(project, "bin", "roundel.mjs")]);
    const said = { stdout: "", stderr: "" };
    for (const stream of ["stdout", "stderr"]) child[stream].on("data", (chunk) => (said[stream] += chunk));
    child.on("close", (status) => resolve({ status, ...said }));
  });
}

describe("the command builds itself", () => {
  it("once, however many start together, and each of them runs what was built", async () => {
    const runs = await Promise.all([command(), command(), command()]);
    expect(runs.map(({ status, stdout }) => [status, stdout])).toEqual([
      [0, "one\n"],
      [0, "one\n"],
      [0, "one\n"],
    ]);
    const builds = runs.filter(({ stderr }) => stderr.includes("Building the program."));
    expect(builds).toHaveLength(1);
  });

  it("not again while its sources are the same, even when their times changed", async () => {
    expect(await command()).toEqual({ status: 0, stdout: "one\n", stderr: "" });
    utimesSync(source(), new Date(), new Date());
    expect(await command()).toEqual({ status: 0, stdout: "one\n", stderr: "" });
  });

  it("again when they changed", async () => {
    say("another");
    expect(await command()).toEqual({ status: 0, stdout: "another\n", stderr: "Building the program.\n" });
  });

  it("and says so when it cannot: the faults first, then the sentence", async () => {
    writeFileSync(source(), "export const = ;\n");
    const { status, stdout, stderr } = await command();
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toMatch(
      /src\/cli\/main\.ts.*error[\s\S]*Building the program failed; the reason is above\.\n$/,
    );
    say("mended");
    expect((await command()).stdout).toBe("mended\n");
  });
});
