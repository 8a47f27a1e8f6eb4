import { expect, it } from "vitest";
import { type CuttingSheet, cuttingSheet } from "../../src/documents/index.ts";
import { areaMm2, dimensionsOf } from "../../src/domain/outline/index.ts";
import { holeAround, longLinesMm, type PrintedHole, shareThatDiffers } from "./measure.ts";
import { describePrinted, render, wordsByPage } from "./poppler.ts";
import { oval, round, type SampleShape, sheetFor, traced } from "./sheet.ts";

/** What a printed length may be off, in millimetres: the accuracy this project holds itself to. */
const toleranceMm = 0.1;

/** The holes of a page from left to right, each found from the white beside the small words "skin side" or "your side" in its middle. */
function holesOf(pdf: Buffer, page = 1, dpi = 600): PrintedHole[] {
  const picture = render(pdf, page, dpi);
  return wordsByPage(pdf)
    [page - 1]!.filter(({ text, top, bottom }) => ["skin", "your"].includes(text) && bottom - top < 4.3)
    .map(({ left, top, bottom }) => holeAround(picture, { x: left - 0.5, y: (top + bottom) / 2 }))
    .sort((a, b) => a.middleMm.x - b.middleMm.x);
}

async function holesOn(shape: SampleShape, changes: Partial<CuttingSheet> = {}): Promise<PrintedHole[]> {
  return holesOf(await cuttingSheet(sheetFor(shape, changes)));
}

function expectMm(got: number, wanted: number): void {
  expect(Math.abs(got - wanted), `${got.toFixed(3)} mm for ${wanted.toFixed(3)} mm`).toBeLessThan(
    toleranceMm,
  );
}

describePrinted("a printed hole, measured to the inner edge of its line", () => {
  it.each(["A4", "Letter"] as const)(
    "a stoma of 26 mm with 2 mm each side is 30 mm across at any angle, on %s",
    async (paper) => {
      const holes = await holesOn(round(26), { paper });
      expect(holes).toHaveLength(2);
      for (const hole of holes) {
        for (const angle of [0, 17, 45, 90, 128]) expectMm(hole.widthAtMm(angle), 30);
        expect(Math.abs(hole.areaMm2 - Math.PI * 15 ** 2)).toBeLessThan(Math.PI * 30 * (toleranceMm / 2));
      }
    },
  );

  it("a tilted oval leans to the person's left on the face you look at, and the other way on the skin side", async () => {
    const [skin, you] = await holesOn(oval(36, 25, 25));
    for (const [hole, lean] of [
      [skin, -1],
      [you, 1],
    ] as const) {
      // 40 by 29 mm, its long axis 25 degrees from upright; on paper the person's left is right for you
      expectMm(hole!.widthAtMm(90 - lean * 25), 40);
      expectMm(hole!.widthAtMm(-lean * 25), 29);
      expect(hole!.widthAtMm(90 + lean * 25)).toBeLessThan(40 - 1);
    }
  });

  it("a traced outline keeps its size and area, and the two faces are each other's mirror image", async () => {
    const shape = traced();
    const [skin, you] = await holesOn(shape);
    const { lengthMm, widthMm } = dimensionsOf(shape.opening);
    for (const hole of [skin!, you!]) {
      expectMm(hole.heightMm, lengthMm);
      expectMm(hole.widthMm, widthMm);
      expect(hole.areaMm2 / areaMm2(shape.opening)).toBeCloseTo(1, 2);
    }
    expect(shareThatDiffers(skin!, you!, true)).toBeLessThan(0.01);
    expect(shareThatDiffers(skin!, you!, false)).toBeGreaterThan(0.05);
  });

  it("the face you look at shows the outline as it was taken, x to the person's left and y to the head", async () => {
    const shape = traced();
    const [, you] = await holesOn(shape);
    const { opening } = shape;
    const middle = (values: number[]) => (Math.min(...values) + Math.max(...values)) / 2;
    const [x0, y0] = [middle(opening.map(([x]) => x)), middle(opening.map(([, y]) => y))];
    for (const [x, y] of opening) {
      const [dx, dy] = [x - x0, y0 - y];
      expect(you!.covers(dx * 0.98, dy * 0.98)).toBe(true);
      expect(you!.covers(dx * 1.02, dy * 1.02)).toBe(false);
    }
  });

  it("a stoma of 75 by 60 mm gets a page for each face, neither made smaller", async () => {
    const pdf = await cuttingSheet(sheetFor(oval(60, 75, 0)));
    const [skin, you] = [1, 2].map((page) => holesOf(pdf, page));
    expect([skin!.length, you!.length]).toEqual([1, 1]);
    for (const [hole] of [skin!, you!]) {
      expectMm(hole!.widthMm, 79);
      expectMm(hole!.heightMm, 64);
    }
  });
});

describePrinted("the check bars", () => {
  it.each(["A4", "Letter"] as const)(
    "a bar of 100 mm and one of 50 mm lie across and stand upright on %s",
    async (paper) => {
      const picture = render(await cuttingSheet(sheetFor(round(26), { paper })));
      for (const direction of ["across", "upright"] as const) {
        const lines = longLinesMm(picture, direction);
        for (const barMm of [100, 50]) {
          expect(Math.min(...lines.map((line) => Math.abs(line - barMm)))).toBeLessThan(toleranceMm);
        }
      }
    },
  );

  it("both pages of a large sheet carry them", async () => {
    const pdf = await cuttingSheet(sheetFor(oval(60, 75, 0)));
    for (const page of [1, 2]) {
      for (const direction of ["across", "upright"] as const) {
        const lines = longLinesMm(render(pdf, page, 300), direction);
        expect(Math.min(...lines.map((line) => Math.abs(line - 100)))).toBeLessThan(toleranceMm);
      }
    }
  });

  it("for a printer that makes 97 mm of 100 across and 102 upright, hole and bars are drawn larger and smaller by as much", async () => {
    const pdf = await cuttingSheet(sheetFor(round(26), { printScale: { x: 0.97, y: 1.02 } }));
    const picture = render(pdf);
    for (const hole of holesOf(pdf)) {
      expectMm(hole.widthMm, 30 / 0.97);
      expectMm(hole.heightMm, 30 / 1.02);
    }
    const nearest = (lines: number[], wanted: number) =>
      Math.min(...lines.map((line) => Math.abs(line - wanted)));
    expect(nearest(longLinesMm(picture, "across"), 100 / 0.97)).toBeLessThan(toleranceMm);
    expect(nearest(longLinesMm(picture, "upright"), 100 / 1.02)).toBeLessThan(toleranceMm);
  });
});

describePrinted("the words round a face", () => {
  it("three o'clock and LEFT stand on the left of the skin side and on the right of the face you look at", async () => {
    const shape = round(26);
    const pdf = await cuttingSheet(sheetFor(shape));
    const [words] = wordsByPage(pdf);
    const holes = holesOf(pdf, 1, 300);
    const faces = [
      { hole: holes[0]!, leftIs: -1, title: "skin" },
      { hole: holes[1]!, leftIs: 1, title: "you" },
    ];
    for (const { hole, leftIs } of faces) {
      const near = (text: string) => {
        const found = words!.filter(
          (word) =>
            word.text === text &&
            Math.abs((word.left + word.right) / 2 - hole.middleMm.x) < 45 &&
            Math.abs((word.top + word.bottom) / 2 - hole.middleMm.y) < 32,
        );
        expect(found, text).toHaveLength(1);
        return {
          dx: (found[0]!.left + found[0]!.right) / 2 - hole.middleMm.x,
          dy: (found[0]!.top + found[0]!.bottom) / 2 - hole.middleMm.y,
        };
      };
      expect(Math.sign(near("LEFT").dx)).toBe(leftIs);
      expect(Math.sign(near("RIGHT").dx)).toBe(-leftIs);
      for (const hour of [1, 2, 3, 4, 5]) expect(Math.sign(near(`${hour}`).dx)).toBe(leftIs);
      for (const hour of [7, 8, 9, 10, 11]) expect(Math.sign(near(`${hour}`).dx)).toBe(-leftIs);
      for (const hour of [10, 11, 12, 1, 2]) expect(near(`${hour}`).dy).toBeLessThan(0);
      for (const hour of [4, 5, 6, 7, 8]) expect(near(`${hour}`).dy).toBeGreaterThan(0);
      expect(near("head").dy).toBeLessThan(0);
      expect(near("foot").dy).toBeGreaterThan(0);
    }
  });
});
