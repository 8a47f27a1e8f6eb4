import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { roundel } from "../../../test/cli/roundel.ts";
import { defaultProtocol } from "../../domain/protocol/index.ts";
import { clearanceFor } from "./clearance.ts";
import { sheetExample, sheetOfDocument } from "./sheetDocument.ts";
import { sitingExample } from "./sitingDocument.ts";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "print-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe("a cutting sheet from a document", () => {
  it("is made from the example as it is printed", async () => {
    const { stdout: example } = await roundel(["print", "cutting-sheet", "--example"]);
    const pdf = join(folder, "sheet.pdf");
    expect(await roundel(["print", "cutting-sheet", "-o", pdf], example)).toEqual({
      status: 0,
      stdout: "",
      stderr: "",
    });
    expect(readFileSync(pdf).subarray(0, 5).toString()).toBe("%PDF-");
  });

  it("says every fault of the document and makes no page", async () => {
    const { person: _left, ...document } = { ...sheetExample, clearanceMm: "2", colour: "red" };
    const { status, stdout, stderr } = await roundel(["print", "cutting-sheet"], JSON.stringify(document));
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr.trimEnd().split("\n").sort()).toEqual([
      'clearanceMm: is of the wrong type (got "2", expected number)',
      'colour: is not a known field (got "red", expected only documented fields)',
      "person: is missing (got nothing, expected object)",
    ]);
  });

  it("leaves the gap that was asked for, on every side", () => {
    const { gapEachSideMm } = sheetOfDocument(sheetExample, {});
    expect(gapEachSideMm.min).toBeCloseTo(2, 1);
    expect(gapEachSideMm.max).toBeCloseTo(2, 1);
  });

  it("refuses a gap that leaves nothing to cut", () => {
    expect(() => sheetOfDocument({ ...sheetExample, clearanceMm: -40 }, {})).toThrow(/leaves nothing to cut/);
  });

  it("does not mix with the options of a record", async () => {
    const { status, stderr } = await roundel(["print", "cutting-sheet", "--person", "somebody"], "{}");
    expect([status, stderr]).toEqual([
      2,
      "--person goes with a record: name its folder with --data, or write it in the document.\n",
    ]);
  });
});

describe("the frame card", () => {
  it("goes to standard output where that is no terminal", async () => {
    const { status, stdout } = await roundel([
      "print",
      "frame-card",
      "--paper",
      "Letter",
      "--scale",
      "0.985,1",
    ]);
    expect(status).toBe(0);
    expect(stdout.slice(0, 5)).toBe("%PDF-");
  });

  it("is refused for a scale that no printer has", async () => {
    const { status, stdout, stderr } = await roundel(["print", "frame-card", "--scale", "0.5,1"]);
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/^printScale\.x: is not the scale of a printer/);
  });
});

describe("a siting record from a document", () => {
  it("is made from the example as it is printed", async () => {
    const { stdout: example } = await roundel(["print", "siting-record", "--example"]);
    const pdf = join(folder, "siting.pdf");
    expect(await roundel(["print", "siting-record", "-o", pdf], example)).toEqual({
      status: 0,
      stdout: "",
      stderr: "",
    });
    expect(readFileSync(pdf).subarray(0, 5).toString()).toBe("%PDF-");
  });

  it("says every fault of the document and makes no page", async () => {
    const { consent: _left, ...document } = { ...sitingExample, colour: "red" };
    const { status, stdout, stderr } = await roundel(["print", "siting-record"], JSON.stringify(document));
    expect([status, stdout]).toEqual([2, ""]);
    expect(stderr).toMatch(/^consent: is missing/m);
    expect(stderr).toMatch(/^colour: is not a known field/m);
  });

  it("does not mix with the options of a record", async () => {
    const { status, stderr } = await roundel(["print", "siting-record", "--person", "somebody"], "{}");
    expect([status, stderr]).toEqual([
      2,
      "--person goes with a record: name its folder with --data, or write it in the document.\n",
    ]);
  });
});

it("the gap is the larger one only where stool is formed", () => {
  expect(clearanceFor("colostomy", defaultProtocol)).toBe(defaultProtocol.clearanceFormedMm);
  for (const type of ["ileostomy", "urostomy", "fistula", "other"] as const) {
    expect(clearanceFor(type, defaultProtocol)).toBe(defaultProtocol.clearanceLiquidMm);
  }
});
