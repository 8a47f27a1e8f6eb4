import { beforeAll, expect, it } from "vitest";
import { type FrameCard, frameCard } from "../../src/documents/index.ts";
import geometry from "../../src/domain/frame-card/frame-card.json" with { type: "json" };
import { holeAround, inkBoxMm, longLinesMm } from "./measure.ts";
import { describePrinted, type Picture, render, textByPage, wordsByPage } from "./poppler.ts";

const toleranceMm = 0.1;

/** A page with a card: the card's edge and hole, found from the white beside words that stand in them. */
async function printedCard(input: FrameCard) {
  const pdf = await frameCard(input);
  const picture = render(pdf);
  const [words] = wordsByPage(pdf);
  const seedAt = (text: string) => {
    const { left, top, bottom } = words!.find((word) => word.text === text)!;
    return { x: left - 0.6, y: (top + bottom) / 2 };
  };
  return {
    pdf,
    picture,
    hole: holeAround(picture, seedAt("cut")),
    edge: holeAround(picture, seedAt("head")),
  };
}

/** Grey at a place given from the card's middle, x to the right, y to the head. */
function greyAt(
  { width, pixels, perMm }: Picture,
  middle: { x: number; y: number },
  x: number,
  y: number,
): number {
  return pixels[Math.floor((middle.y - y) * perMm) * width + Math.floor((middle.x + x) * perMm)]!;
}

describePrinted("the printed frame card", () => {
  let onA4: Awaited<ReturnType<typeof printedCard>>;
  beforeAll(async () => {
    onA4 = await printedCard({ paper: "A4" });
  });

  it.each(["A4", "Letter"] as const)(
    "is 130 mm square with a hole of 80 mm in its middle, on %s",
    async (paper) => {
      const { hole, edge } = paper === "A4" ? onA4 : await printedCard({ paper });
      for (const mm of [edge.widthMm, edge.heightMm]) expect(Math.abs(mm - 130)).toBeLessThan(toleranceMm);
      // the hole's line lies in the waste: its outer edge is the card's, its inner edge 0.2 mm further in
      for (const angle of [0, 33, 90])
        expect(Math.abs(hole.widthAtMm(angle) - (80 - 2 * 0.2))).toBeLessThan(toleranceMm);
      expect(Math.abs(hole.middleMm.x - edge.middleMm.x)).toBeLessThan(toleranceMm);
      expect(Math.abs(hole.middleMm.y - edge.middleMm.y)).toBeLessThan(toleranceMm);
    },
  );

  it("carries the eight markers, every module as the card's file has it", async () => {
    const {
      picture,
      edge: { middleMm },
    } = onA4;
    const { list, side } = geometry.markers;
    expect(list).toHaveLength(8);
    for (const { id, corners, modules } of list) {
      const module = side / modules.length;
      const [left, head] = [corners.topLeft[0]!, corners.topLeft[1]!];
      const read = modules.map((row, rowAt) =>
        row.map((_, columnAt) =>
          greyAt(picture, middleMm, left + (columnAt + 0.5) * module, head - (rowAt + 0.5) * module) > 127
            ? 1
            : 0,
        ),
      );
      expect(read, `marker ${id}`).toEqual(modules);
    }
  });

  it("draws a marker from corner to corner, 16 mm, with a module of white round it", async () => {
    const {
      picture,
      edge: { middleMm },
    } = onA4;
    const nearMm = 0.08;
    const quietMm = 16 / 6;
    for (const { corners } of geometry.markers.list) {
      const [left, head] = [corners.topLeft[0]!, corners.topLeft[1]!];
      const [right, foot] = [corners.bottomRight[0]!, corners.bottomRight[1]!];
      for (let along = 0.5; along < 16; along += 0.5) {
        const inside = [
          [left + along, head - nearMm],
          [left + along, foot + nearMm],
          [left + nearMm, foot + along],
          [right - nearMm, foot + along],
        ] as const;
        for (const [x, y] of inside) expect(greyAt(picture, middleMm, x, y)).toBeLessThan(128);
        for (const outMm of [nearMm, quietMm]) {
          const outside = [
            [left + along, head + outMm],
            [left + along, foot - outMm],
            [left - outMm, foot + along],
            [right + outMm, foot + along],
          ] as const;
          for (const [x, y] of outside) expect(greyAt(picture, middleMm, x, y)).toBeGreaterThan(127);
        }
      }
    }
  });

  it("leaves no hairline between white modules that meet, nor between black ones, at a screen's resolution", async () => {
    const { pdf, edge } = onA4;
    const picture = render(pdf, 1, 97);
    for (const { corners, modules } of geometry.markers.list) {
      const module = 16 / modules.length;
      const [left, head] = [corners.topLeft[0]!, corners.topLeft[1]!];
      for (let row = 0; row < modules.length; row++) {
        for (let column = 0; column + 1 < modules.length; column++) {
          const pairs = [
            [
              modules[row]![column]!,
              modules[row]![column + 1]!,
              left + (column + 1) * module,
              head - (row + 0.5) * module,
            ],
            [
              modules[column]![row]!,
              modules[column + 1]![row]!,
              left + (row + 0.5) * module,
              head - (column + 1) * module,
            ],
          ] as const;
          for (const [bit, next, x, y] of pairs) {
            if (bit === next) expect(greyAt(picture, edge.middleMm, x, y)).toBe(bit === 1 ? 255 : 0);
          }
        }
      }
    }
  });

  it("has a bar of 100 mm each way, and grows with them for a printer that prints small", async () => {
    for (const [printScale, across, upright] of [
      [undefined, 100, 100],
      [{ x: 0.97, y: 0.985 }, 100 / 0.97, 100 / 0.985],
    ] as const) {
      const { picture, edge } = printScale ? await printedCard({ paper: "Letter", printScale }) : onA4;
      const nearest = (lines: number[], wanted: number) =>
        Math.min(...lines.map((line) => Math.abs(line - wanted)));
      expect(nearest(longLinesMm(picture, "across"), across)).toBeLessThan(toleranceMm);
      expect(nearest(longLinesMm(picture, "upright"), upright)).toBeLessThan(toleranceMm);
      expect(Math.abs(edge.widthMm - 1.3 * across)).toBeLessThan(toleranceMm);
      expect(Math.abs(edge.heightMm - 1.3 * upright)).toBeLessThan(toleranceMm);
    }
  });

  it.each([
    ["A4", 210, 297],
    ["Letter", 215.9, 279.4],
  ] as const)("lies within 190 by 254 mm on %s", async (paper, widthMm, heightMm) => {
    const ink = inkBoxMm(render(await frameCard({ paper, batchLabel: "Box 12" }), 1, 150));
    expect(ink.left).toBeGreaterThan((widthMm - 190) / 2);
    expect(ink.right).toBeLessThan((widthMm + 190) / 2);
    expect(ink.top).toBeGreaterThan((heightMm - 254) / 2);
    expect(ink.bottom).toBeLessThan((heightMm + 254) / 2);
  });

  it("says how it is printed, laid and thrown away", async () => {
    const [page] = textByPage(await frameCard({ paper: "A4", batchLabel: "Box 12" }));
    for (const said of [
      "Box 12",
      "matt paper, at actual size (100 %)",
      "this side up",
      "head",
      "For one person, used once",
      "Never lay it on open, sore or bleeding skin",
      "Your local protocol and your own clinicians decide",
    ]) {
      expect(page).toContain(said);
    }
    expect(page!.match(/_{8,} mm/g)).toHaveLength(4);
  });
});
