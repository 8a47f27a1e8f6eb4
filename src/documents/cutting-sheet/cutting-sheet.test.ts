import { describe, expect, it } from "vitest";
import { oval, round, sheetFor } from "../../../test/printed/sheet.ts";
import { cuttingSheet } from "../index.ts";

const pagesIn = (pdf: Buffer) => pdf.toString("latin1").match(/\/Type \/Page\b(?!s)/g)!.length;

describe("the cutting sheet", () => {
  it("shows both faces of a usual stoma on one page, on either paper", async () => {
    for (const paper of ["A4", "Letter"] as const) {
      for (const shape of [oval(10, 6, 20, 1), round(26), oval(36, 25, 25), round(38)]) {
        expect(pagesIn(await cuttingSheet(sheetFor(shape, { paper })))).toBe(1);
      }
    }
  });

  it("gives each face a page where they do not fit side by side", async () => {
    for (const shape of [round(60), oval(60, 75, 0, 3), oval(75, 60, 0, 3)]) {
      expect(pagesIn(await cuttingSheet(sheetFor(shape)))).toBe(2);
    }
  });

  it("refuses a hole too large for the paper, and says how large it may be, instead of drawing it smaller", async () => {
    await expect(cuttingSheet(sheetFor(round(110)))).rejects.toThrow(
      /^scissorPath: is too large for a sheet on A4 paper.*got "114\.0 mm across, 114\.0 mm head to foot", expected at most \d+\.\d mm across/,
    );
  });

  it("keeps its pages when it is corrected for a printer", async () => {
    const shape = oval(36, 25, 25);
    expect(pagesIn(await cuttingSheet(sheetFor(shape, { printScale: { x: 0.97, y: 0.985 } })))).toBe(1);
  });

  it("is the same to the byte for the same input", async () => {
    const sheet = sheetFor(oval(31, 28, 12));
    expect((await cuttingSheet(sheet)).equals(await cuttingSheet(sheet))).toBe(true);
  });

  it("is tagged, in English, and titled with its number and person", async () => {
    const pdf = (await cuttingSheet(sheetFor(round(26)))).toString("latin1");
    expect(pdf).toContain("/Marked true");
    expect(pdf).toContain("/Lang (en)");
    expect(pdf).toContain("/DisplayDocTitle true");
    expect(pdf).toContain("(Cutting sheet 4, Edda Farrowby)");
    for (const type of ["H1", "H2", "P", "L", "LI", "Figure"]) expect(pdf).toContain(`/S /${type}`);
    expect(pdf).toContain("Facing the skin: the hole at its real size, 30.0 mm across.");
    expect(pdf).toContain("Head at the top, the person's left on the left.");
  });

  it("is vectors all through: no picture of dots", async () => {
    expect((await cuttingSheet(sheetFor(round(26)))).toString("latin1")).not.toContain("/Subtype /Image");
  });
});
