import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { roundel, roundelFile } from "../../../test/cli/roundel.ts";
import type { Entry } from "../../record/entry/index.ts";

let folder: string;
const inFolder = (...parts: string[]) => join(folder, ...parts);
const demo = () => inFolder("demo");
const copy = () => inFolder("copy");
const exported = () => inFolder("record.jsonl");

/** The entries of the export, its header left out. */
function entries(): Entry[] {
  const lines = readFileSync(exported(), "utf8").trimEnd().split("\n");
  return lines.slice(1).map((line) => JSON.parse(line));
}

function personNamed(name: string): string {
  return entries().find((entry) => entry.kind === "person" && entry.body.name === name)!.personId!;
}

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "record-"));
  expect((await roundel(["demo", "--data", demo()])).stdout).toBe(`The demo was made in ${demo()}.\n`);
  expect((await roundel(["export", "--data", demo(), "-o", exported()])).status).toBe(0);
  expect((await roundel(["import", "--data", copy(), exported()])).status).toBe(0);
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("the record, out and in", () => {
  it("is written to a file that nobody else may read", () => {
    expect(statSync(exported()).mode & 0o777).toBe(0o600);
    expect(entries().length).toBeGreaterThan(1000);
  });

  it("comes out of its copy as it went in, and adds nothing when it comes in again", async () => {
    const again = await roundel(["import", "--data", copy(), exported()]);
    expect(again.stdout).toBe(
      `Read ${entries().length} lines: 0 entries added, ${entries().length} already there, 0 left out.\n`,
    );
    const { stdout } = await roundel(["export", "--data", copy()]);
    const [, ...lines] = stdout.trimEnd().split("\n");
    expect(lines.map((line) => JSON.parse(line))).toEqual(entries());
  });

  it("comes in whole or not at all, and faulty lines are named", async () => {
    const lines = readFileSync(exported(), "utf8").split("\n");
    lines[2] = lines[2]!.replace('"kind":"', '"kind":"x');
    const other = inFolder("other");
    const { status, stdout, stderr } = await roundel(["import", "--data", other], lines.join("\n"));
    expect(status).toBe(2);
    expect(stdout).toMatch(/nothing was imported, because 1 of them has faults/);
    expect(stderr).toMatch(/^line 3: kind: is not one of the choices .*\n$/);
    expect((await roundel(["export", "--data", other])).status).toBe(1);
  });

  it("waits for its input until Ctrl-C, and then nothing has come in", async () => {
    const waiting = inFolder("waiting");
    const child = spawn(process.execPath, [roundelFile, "import", "--data", waiting, "--progress"]);
    const ended = new Promise((resolve) => child.once("close", resolve));
    child.stdin.write(readFileSync(exported(), "utf8").slice(0, 400_000));
    await new Promise((resolve) => child.stderr.once("data", resolve));
    child.kill("SIGINT");
    expect(await ended).toBe(130);
    expect((await roundel(["export", "--data", waiting])).status).toBe(1);
  });

  it("never comes into the demo", async () => {
    const { status, stderr } = await roundel(["import", "--data", demo(), exported()]);
    expect([status, stderr]).toEqual([
      2,
      `The folder ${demo()} holds the demo. Real people never go beside invented ones.\n`,
    ]);
  });

  it("is rebuilt from its entries", async () => {
    const { status, stdout } = await roundel(["rebuild", "--data", copy()]);
    expect(status).toBe(0);
    expect(stdout).toBe(`Rebuilt from ${entries().length} entries: 41 people, 43 healing curves.\n`);
  });

  it("cannot be written where there is no folder, and leaves no half a file", async () => {
    const { status, stderr } = await roundel(["export", "--data", copy(), "-o", inFolder("no", "file")]);
    expect([status, stderr]).toEqual([
      1,
      `Cannot write ${inFolder("no", "file")}: there is no such folder.\n`,
    ]);
  });
});

describe("the demo folder", () => {
  it("is kept when it is there, and made anew when asked for", async () => {
    const kept = await roundel(["demo", "--data", demo()]);
    expect(kept.stdout).toMatch(/was made on \d{4}-\d\d-\d\d and was kept\. --remake makes it anew\.\n$/);
  });

  it("is never one with other people in it, not even to be made anew", async () => {
    for (const options of [[], ["--remake"]]) {
      const { status, stderr } = await roundel(["demo", "--data", copy(), ...options]);
      expect(status).toBe(2);
      expect(stderr).toMatch(/holds a real clinic|does not hold the demo; nothing was deleted/);
    }
    expect((await roundel(["export", "--data", copy()])).status).toBe(0);
  });
});

describe("a log of changes", () => {
  it("goes out, and coming in again adds nothing", async () => {
    const person = personNamed("Dafydd Penllwyn");
    const csv = inFolder("changes.csv");
    expect((await roundel(["export", "log", "--data", copy(), "--person", person, "-o", csv])).status).toBe(
      0,
    );
    const { status, stdout } = await roundel(["import", "log", "--data", copy(), "--person", person, csv]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/\n0 new changes; \d+ in the record already, 0 twice in the file\.\n/);
    expect(stdout).toMatch(/^Imported: 0\. /m);
  });

  it("with a fault is left alone whole, unless the good rows are asked for", async () => {
    const person = personNamed("Idris Benmourad");
    const { stdout: out } = await roundel(["export", "log", "--data", copy(), "--person", person]);
    const [header, ...rows] = out.trimEnd().split("\r\n");
    const shifted = rows.map((row) => row.replace(/(\d\d):(\d\d)/, (_time, hour) => `${hour}:59`));
    const csv = inFolder("faulty.csv");
    writeFileSync(csv, [header, ...shifted, shifted[0]!.replace(/^[^,]*/, "yesterday")].join("\n"));
    const of = ["import", "log", "--data", copy(), "--person", person, csv];

    const whole = await roundel(of);
    expect(whole.status).toBe(2);
    expect(whole.stderr).toMatch(new RegExp(`^line ${rows.length + 2}: date: .*yesterday`));
    expect(whole.stdout).not.toMatch(/Imported/);

    const tried = await roundel([...of, "--good-only", "--dry-run"]);
    expect(tried.stdout).not.toMatch(/Imported/);

    const good = await roundel([...of, "--good-only"]);
    expect(good.status).toBe(2);
    expect(good.stdout).toMatch(new RegExp(`${rows.length} good, 1 with faults`));
    expect(good.stdout).toMatch(/^Imported: [1-9]\d*\. /m);
  });

  it("of somebody with two stomas needs to be told which", async () => {
    const person = personNamed("Stellan Rydmark");
    const { status, stderr } = await roundel(["export", "log", "--data", copy(), "--person", person]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/^Which stoma\? Name it with --stoma: .*\(Urostomy\), .*\(Colostomy\)\.\n$/);
  });

  it("of nobody is refused", async () => {
    const { status, stderr } = await roundel(["export", "log", "--data", copy(), "--person", "nobody"]);
    expect([status, stderr]).toEqual([2, "This record holds no person nobody.\n"]);
  });
});

describe("a cutting sheet from the record", () => {
  it("is a PDF, and is written down as advice given", async () => {
    const person = personNamed("Dafydd Penllwyn");
    const pdf = inFolder("sheet.pdf");
    const of = ["print", "cutting-sheet", "--data", copy(), "--person", person, "-o", pdf];
    expect(await roundel(of)).toEqual({ status: 0, stdout: "", stderr: "" });
    expect(readFileSync(pdf).subarray(0, 5).toString()).toBe("%PDF-");
    const { stdout } = await roundel(["export", "--data", copy()]);
    const advised = stdout.split("\n").filter((line) => line.includes('"kind":"advised"'));
    expect(advised.map((line) => JSON.parse(line).body)).toMatchObject([
      { what: "cuttingSheet", sheetNumber: 1, clearanceMm: 2 },
    ]);
  });

  it("needs a measurement", async () => {
    const person = personNamed("Aurelio Castabene");
    const pdf = inFolder("none.pdf");
    const { status, stderr } = await roundel([
      "print",
      "cutting-sheet",
      "--data",
      copy(),
      "--person",
      person,
      "-o",
      pdf,
    ]);
    expect([status, stderr]).toEqual([2, "This stoma was never measured: there is nothing to cut from.\n"]);
    expect(existsSync(pdf)).toBe(false);
  });
});
