import { spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { roundel, roundelFile } from "../../../test/cli/roundel.ts";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "compute-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("roundel compute", () => {
  it("takes one document from standard input and answers with one", async () => {
    const { status, stdout, stderr } = await roundel(["compute", "protocol"], '{"changes":{"maxGapMm":4}}');
    expect([status, stderr]).toEqual([0, ""]);
    const lines = stdout.split("\n");
    expect(lines).toHaveLength(2);
    expect(lines[1]).toBe("");
    expect(JSON.stringify(JSON.parse(lines[0]!))).toContain('"key":"maxGapMm","value":4,"changed":true');
  });

  it("takes the document from a file as well, with or without a byte order mark", async () => {
    const file = join(folder, "input.json");
    writeFileSync(file, "\ufeff{}");
    expect((await roundel(["compute", "protocol", file])).status).toBe(0);
  });

  it("says one line for each fault, with status 2 and nothing on standard output", async () => {
    const input = { changes: { riskTarget: 7, maxGapMm: "wide" }, more: 1 };
    const { status, stdout, stderr } = await roundel(["compute", "protocol"], JSON.stringify(input));
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr.split("\n").sort()).toEqual([
      "",
      'changes.maxGapMm: is of the wrong type (got "wide", expected number)',
      "changes.riskTarget: is too large (got 7, expected at most 0.5)",
      "more: is not a known field (got 1, expected only documented fields)",
    ]);
  });

  it("names the place where the input stops being JSON", async () => {
    const { status, stdout, stderr } = await roundel(["compute", "protocol"], '{\n  "changes": nothing\n}');
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toBe(
      'input: is not JSON from line 2, column 14 on (got "nothing", expected valid JSON)\n',
    );
  });

  it("keeps a fault on its line whatever the field is called", async () => {
    const { stderr } = await roundel(["compute", "protocol"], JSON.stringify({ "a\nb\u001b[31m\u2028": 1 }));
    expect(stderr).toBe(
      "a\\u000ab\\u001b[31m\\u2028: is not a known field (got 1, expected only documented fields)\n",
    );
  });

  it("lists its topics, and again where a topic does not exist", async () => {
    const listed = await roundel(["compute", "--list"]);
    expect(listed.status).toBe(0);
    const refused = await roundel(["compute", "weather"]);
    expect([refused.status, refused.stdout]).toEqual([2, ""]);
    for (const topic of ["outline", "opening", "exposed", "healing", "wear", "protocol"]) {
      expect(listed.stdout).toMatch(new RegExp(`^${topic} +\\S`, "m"));
      expect(refused.stderr).toContain(topic);
    }
    expect((await roundel(["compute", "constructor"])).status).toBe(2);
    expect((await roundel(["compute"])).status).toBe(2);
  });

  it("refuses a file that is not there and a folder", async () => {
    expect(await roundel(["compute", "protocol", "/no/such/file"])).toEqual({
      status: 2,
      stdout: "",
      stderr: "There is no file /no/such/file.\n",
    });
    expect((await roundel(["compute", "protocol", folder])).stderr).toBe(
      `${folder} is a folder, not a file.\n`,
    );
  });
});

describe("roundel compute --lines", () => {
  it("answers each line, reports faulty ones with their number and ends with status 2", async () => {
    const input = '{}\n\n{"changes":{"maxGapMm":99}}\r\n{oops\n{"changes":{"maxGapMm":4}}';
    const { status, stdout, stderr } = await roundel(["compute", "protocol", "--lines"], input);
    expect(status).toBe(2);
    expect(stderr).toBe(
      "line 3: changes.maxGapMm: is too large (got 99, expected at most 10)\n" +
        'line 4: input: is not JSON from column 2 on (got "oops", expected valid JSON)\n',
    );
    const answers = stdout
      .trimEnd()
      .split("\n")
      .map((line) => JSON.parse(line));
    expect(answers).toHaveLength(2);
    expect(JSON.stringify(answers[1])).toContain('"key":"maxGapMm","value":4');
  });

  it("answers a thousand lines in their order", async () => {
    const gaps = Array.from({ length: 1000 }, (_, line) => 1 + (line % 900) / 100);
    const input = gaps.map((maxGapMm) => `${JSON.stringify({ changes: { maxGapMm } })}\n`).join("");
    const { status, stdout } = await roundel(["compute", "protocol", "--lines"], input);
    expect(status).toBe(0);
    const answered = stdout
      .trimEnd()
      .split("\n")
      .map((line) => /"key":"maxGapMm","value":([\d.]+)/.exec(line)?.[1]);
    expect(answered.map(Number)).toEqual(gaps);
  });

  it("stops quietly when its reader has seen enough", async () => {
    const child = spawn(process.execPath, [roundelFile, "compute", "protocol", "--lines"]);
    const stderr: Buffer[] = [];
    child.stderr.on("data", (chunk: Buffer) => stderr.push(chunk));
    child.stdin.on("error", () => {});
    child.stdin.end("{}\n".repeat(5000));
    child.stdout.once("data", () => child.stdout.destroy());
    const status = await new Promise((resolve) => child.on("close", resolve));
    expect([status, Buffer.concat(stderr).toString()]).toEqual([0, ""]);
  });
});
