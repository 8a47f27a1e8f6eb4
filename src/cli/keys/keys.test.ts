import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { roundel, type Said } from "../../../test/cli/roundel.ts";

vi.setConfig({ testTimeout: 60_000 });

let folder: string;
const at = (...parts: string[]) => join(folder, ...parts);
const keyFile = () => at("settings", "record.key");
const clinic = () => ["--data", at("clinic"), "--key-file", keyFile()];

/** Everything that any command said, but the one that shows the recovery key. */
const said: Said[] = [];
async function run(args: readonly string[], stdin = ""): Promise<Said> {
  const answer = await roundel(args, stdin);
  said.push(answer);
  return answer;
}

/** The key as it stands on the screen: three lines, set in. */
let paper: string;
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "keys-"));
  await roundel(["demo", "--data", at("clinic")]);
  const shown = await roundel(["keys", "recovery", ...clinic(), "-o", at("key.pdf")]);
  expect([shown.status, shown.stderr]).toEqual([0, ""]);
  paper = shown.stdout.split("\n\n")[1]!;
}, 120_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the recovery key at the command line", () => {
  it("is shown once, with a page to print that nobody else may read", async () => {
    expect(paper).toMatch(/^ {4}AGE-SECRET-KEY-1\n {4}(\w{5} ){5}\w{5}\n {4}(\w{5} ){5}\w{3}$/);
    expect(statSync(at("key.pdf")).mode & 0o777).toBe(0o600);
    expect(readFileSync(at("key.pdf"), "latin1")).toMatch(/^%PDF/);
    const again = await run(["keys", "recovery", ...clinic()]);
    expect([again.status, again.stdout]).toEqual([1, ""]);
    expect(again.stderr).toContain("--replace");
  });

  it("is proved from its paper, and the day is kept", async () => {
    const proved = await run(["keys", "prove", ...clinic()], paper.toLowerCase());
    expect([proved.status, proved.stderr]).toEqual([0, ""]);
    expect(proved.stdout).toMatch(/^The recovery key opens it: a backup of \d+ rows came back whole/);
    expect((await run(["keys", "status", ...clinic()])).stdout).toMatch(
      /proved +\d{4}-\d\d-\d\d \d\d:\d\d UTC\n/,
    );
  });

  it.each([
    ["nothing", () => "", /No key was given/],
    ["a letter misread", () => paper.replace(/.$/, (last) => (last === "Q" ? "P" : "Q")), /check letters/],
  ])("is refused in words: %s", async (_what, text, sentence) => {
    const { status, stdout, stderr } = await run(["keys", "prove", ...clinic()], text());
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toMatch(sentence);
  });
});

describe("a backup at the command line", () => {
  it("goes out, is checked, and comes back on a machine that has the paper alone", async () => {
    const out = await run(["backup", ...clinic(), folder, "--keep", "3"]);
    expect([out.status, out.stderr]).toEqual([0, ""]);
    const file = /to (.*)\n/.exec(out.stdout)![1]!;
    const dry = await run(["restore", file, "--key-file", keyFile(), "--dry-run"]);
    expect(dry.stdout).toMatch(
      /^The backup is whole: \d+ entries and 0 photographs, as they were at .* UTC\. Nothing was written\.\n$/,
    );
    const other = ["--data", at("other"), "--key-file", at("other machine", "k.key")];
    const back = await run(["restore", file, ...other, "--recovery-key", "-"], paper);
    expect([back.status, back.stderr]).toEqual([0, ""]);
    expect((await run(["check", ...other])).stdout).toBe("Nothing is damaged.\n");
  });

  it("is not put over a record without being told to", async () => {
    const file = readdirSync(folder).find((name) => name.endsWith(".age"))!;
    const { status, stderr } = await run(["restore", at(file), ...clinic()]);
    expect(status).toBe(1);
    expect(stderr).toContain("--replace");
  });

  it("that is damaged is refused with status 1 and one sentence", async () => {
    const file = at(readdirSync(folder).find((name) => name.endsWith(".age"))!);
    const bytes = readFileSync(file);
    bytes[bytes.length - 9]! ^= 1;
    writeFileSync(at("damaged.age"), bytes);
    const { status, stdout, stderr } = await run(["restore", at("damaged.age"), ...clinic(), "--replace"]);
    expect([status, stdout]).toEqual([1, ""]);
    expect(stderr).toMatch(/^The backup .* is damaged: .*\n$/);
  });

  it("is what a check asks for that finds damage, by name", async () => {
    const db = new Database(at("other", "record.sqlite"));
    for (const { name } of db.prepare("select name from sqlite_master where type = 'trigger'").all() as {
      name: string;
    }[]) {
      db.exec(`drop trigger ${name}`);
    }
    db.exec("update entry set body = '{}' where cursor = (select max(cursor) from entry)");
    db.close();
    const { status, stdout } = await run([
      "check",
      "--data",
      at("other"),
      "--key-file",
      at("other machine", "k.key"),
    ]);
    expect(status).toBe(1);
    expect(stdout).toMatch(/^entries: [0-9a-f-]{36}: It cannot be read: /);
    expect(stdout).toMatch(/roundel restore .*\n$/);
  });
});

describe("keys that are not as they should be", () => {
  it("are told in words by whichever command needs them", async () => {
    const lost = ["--data", at("clinic"), "--key-file", at("nowhere", "k.key")];
    for (const args of [
      ["backup", ...lost, folder],
      ["keys", "status", ...lost],
    ]) {
      const { status, stderr } = await run(args);
      expect(status).toBe(1);
      expect(stderr).toMatch(/^The key file of this record is not at .*\n$/);
    }
    expect(existsSync(at("nowhere"))).toBe(false);
  });

  it("stand in nothing that any command said", () => {
    expect(said.length).toBeGreaterThan(10);
    const [, ...groups] = paper.split(/\s+/).filter(Boolean);
    for (const { stdout, stderr } of said) {
      expect(stdout + stderr).not.toMatch(/AGE-SECRET-KEY-1[A-Z0-9]/);
      for (const group of groups.slice(0, -1)) expect(stdout + stderr).not.toContain(group);
    }
  });
});
