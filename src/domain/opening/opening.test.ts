import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { type InputError, parseInput } from "../fault.ts";
import { areaMm2, boundaryOf, type GuideReading, type Outline, outlineOf } from "../outline/index.ts";
import { protocolWith } from "../protocol/index.ts";
import { openingSchema } from "./input.ts";
import { type OpeningInput, openingFor } from "./opening.ts";
import { openingTopic } from "./topic.ts";

const inch = 25.4;
const round = (diameterMm: number) => ({ guide: { shape: "round", diameterMm } satisfies GuideReading });
const oval = (lengthMm: number, widthMm: number) => ({
  guide: { shape: "oval", lengthMm, widthMm, tiltDeg: 0 } satisfies GuideReading,
});
const codes = (input: OpeningInput) => openingFor(input).reasons.map(({ code }) => code);
const reason = (input: OpeningInput, code: string) =>
  openingFor(input).reasons.find((one) => one.code === code);

describe("the opening", () => {
  it("at 1/16 inch each side of 28 mm is 31.2 mm across, at 1/8 inch 34.4 mm", () => {
    // Hospital sizing sheet (2020): 1.6 to 3.2 mm each side
    expect(openingFor({ stoma: round(28), clearanceMm: 1.6 }).holeAcrossMm!.max).toBeCloseTo(31.2, 2);
    expect(openingFor({ stoma: round(28), clearanceMm: 3.2 }).holeAcrossMm!.max).toBeCloseTo(34.4, 2);
  });

  it("an eighth of an inch larger across leaves 1.6 mm each side, not 3.2 mm", () => {
    const { gapEachSideMm, holeAcrossMm } = openingFor({ stoma: round(28), clearanceMm: inch / 8 / 2 });
    expect(gapEachSideMm).toBeCloseTo(1.5875, 4);
    expect(holeAcrossMm!.max).toBeCloseTo(31.175, 2);
  });

  it("round an oval of 35 x 25 mm at 3 mm is 41 x 31 mm and leaves 3 mm everywhere; grown axes would not", () => {
    const { opening, holeAcrossMm } = openingFor({ stoma: oval(35, 25), clearanceMm: 3 });
    expect(holeAcrossMm!.max).toBeCloseTo(41, 2);
    expect(holeAcrossMm!.min).toBeCloseTo(31, 2);
    const stoma = boundaryOf(outlineOf(oval(35, 25)));
    const least = (outline: Outline) => Math.min(...outline.map(([x, y]) => stoma.signedGapMm(x, y)));
    expect(least(opening!)).toBeCloseTo(3, 3);
    // arithmetic: the enlarged ellipse comes within 2.965 mm
    expect(least(outlineOf(oval(41, 31)))).toBeCloseTo(2.965, 2);
  });

  it("exposes a ring of skin: gap x perimeter + pi x gap squared round a convex stoma", () => {
    const { exposedSkinMm2, areaMm2: area } = openingFor({ stoma: round(30), clearanceMm: 2 });
    expect(exposedSkinMm2).toBeCloseTo(Math.PI * (17 ** 2 - 15 ** 2), 0);
    expect(area).toBeCloseTo(Math.PI * 17 ** 2, 0);
  });

  it("may follow the stoma's edge with no gap at all", () => {
    const { opening, exposedSkinMm2, reasons, fits } = openingFor({ stoma: oval(35, 25), clearanceMm: 0 });
    expect(opening).toEqual(outlineOf(oval(35, 25)));
    expect(exposedSkinMm2).toBe(0);
    expect(reasons).toEqual([]);
    expect(fits).toBe(true);
  });

  it("over 3.2 mm warns with the source and does not forbid; at 3.2 mm it does not warn", () => {
    const wide = openingFor({ stoma: round(28), clearanceMm: 3.3 });
    expect(wide.fits).toBe(true);
    expect(wide.reasons[0]).toMatchObject({
      code: "clearanceAboveUsual",
      params: { clearanceMm: 3.3, limitMm: 3.2, source: expect.stringContaining("sizing sheet") },
    });
    expect(codes({ stoma: round(28), clearanceMm: 3.2 })).toEqual([]);
  });

  it("warns at the clinic's own limit", () => {
    const protocol = protocolWith({ maxGapMm: 2.5 });
    const { reasons } = openingFor({ stoma: round(28), clearanceMm: 3 }, protocol);
    expect(reasons[0]).toMatchObject({ code: "clearanceAboveUsual", params: { limitMm: 2.5 } });
  });

  it("smaller than the stoma warns of cutting and swelling, and exposes nothing", () => {
    const { opening, exposedSkinMm2, reasons } = openingFor({ stoma: round(28), clearanceMm: -1 });
    expect(areaMm2(opening!)).toBeCloseTo(Math.PI * 13 ** 2, 0);
    expect(exposedSkinMm2).toBe(0);
    expect(reasons[0]?.code).toBe("clearanceNegative");
  });

  it("of which a negative gap leaves nothing is null, never a made-up figure", () => {
    const nothing = openingFor({ stoma: round(6), clearanceMm: -4 });
    expect(nothing).toMatchObject({
      opening: null,
      areaMm2: null,
      holeAcrossMm: null,
      scissorPath: null,
      fits: false,
    });
    expect(nothing.reasons.map(({ code }) => code)).toEqual(["clearanceNegative", "openingVanishes"]);
  });

  it("that a negative gap splits is shown by its largest part and does not fit", () => {
    const waisted: Outline = [
      [0, 0],
      [10, 0],
      [10, 9],
      [22, 9],
      [22, 0],
      [34, 0],
      [34, 20],
      [22, 20],
      [22, 11],
      [10, 11],
      [10, 20],
      [0, 20],
    ];
    const split = openingFor({ stoma: { outline: waisted }, clearanceMm: -1.5 });
    expect(split.reasons.map(({ code }) => code)).toContain("openingSplits");
    expect(split.fits).toBe(false);
    // A block of 9 x 17 mm and a little of the waist between its corners.
    expect(split.areaMm2).toBeGreaterThan(9 * 17);
    expect(split.areaMm2).toBeLessThan(9 * 17 + 0.5);
  });

  it("says at which hours scissors cannot follow it", () => {
    const square: Outline = [
      [-10, -10],
      [10, -10],
      [10, 10],
      [-10, 10],
    ];
    const tight = reason({ stoma: { outline: square }, clearanceMm: 0 }, "curveTighterThanScissors");
    // The corners of an upright square lie half-way between two hours.
    const hours = String(tight!.params.clockHours).split(", ").map(Number);
    for (const hour of hours) expect([1, 2, 4, 5, 7, 8, 10, 11]).toContain(hour);
    expect(codes({ stoma: { outline: square }, clearanceMm: 2 })).toEqual([]);
  });

  it("encloses the stoma and is as much wider across as twice its gap, for any guide reading", () => {
    const size = fc.double({ min: 6, max: 70, noNaN: true });
    fc.assert(
      fc.property(
        size,
        size,
        fc.double({ min: 0, max: 6, noNaN: true }),
        (lengthMm, widthMm, clearanceMm) => {
          const { holeAcrossMm, scissorPath } = openingFor({ stoma: oval(lengthMm, widthMm), clearanceMm });
          expect(Math.abs(holeAcrossMm!.max - Math.max(lengthMm, widthMm) - 2 * clearanceMm)).toBeLessThan(
            0.01,
          );
          const path = boundaryOf(scissorPath!);
          for (const [x, y] of outlineOf(oval(lengthMm, widthMm))) {
            expect(path.signedGapMm(x, y)).toBeLessThan(1e-9);
          }
        },
      ),
      { numRuns: 50 },
    );
  });

  it("is refused for a stoma that is no outline, with the place in the input", () => {
    const bow = {
      stoma: {
        outline: [
          [0, 0],
          [10, 10],
          [10, 0],
          [0, 10],
        ] as const,
      },
      clearanceMm: 2,
    };
    expect(() => openingFor(bow)).toThrow(/^stoma\.outline: crosses itself: edge 0 .* \(5, 5\) mm/);
  });
});

describe("the barrier it is cut from", () => {
  const stoma = round(28);

  it("fits with 10 mm and more left outside, and tells how much that is", () => {
    const opening = openingFor({ stoma, clearanceMm: 2, barrier: { shape: "round", diameterMm: 60 } });
    expect(opening.fits).toBe(true);
    expect(opening.barrierMarginMm).toBeCloseTo(14, 2);
    expect(opening.reasons).toEqual([]);
  });

  it("fits with exactly the margin that is wanted", () => {
    expect(openingFor({ stoma, clearanceMm: 2, barrier: { shape: "round", diameterMm: 52 } }).fits).toBe(
      true,
    );
  });

  it("with too small a margin is refused with the margin and the hour", () => {
    const input: OpeningInput = {
      stoma: oval(40, 25),
      clearanceMm: 2,
      barrier: { shape: "rectangle", widthMm: 100, heightMm: 60 },
      barrierCentreMm: [0, 1],
    };
    expect(openingFor(input).fits).toBe(false);
    expect(reason(input, "barrierMarginTooSmall")!.params).toMatchObject({ clockHour: 6, limitMm: 10 });
    expect(openingFor(input).barrierMarginMm).toBeCloseTo(7, 2);
    expect(codes({ ...input, edgeMarginMm: 5 })).toEqual([]);
  });

  it("lies where it leaves most on every side, unless its centre is given", () => {
    const wedge: Outline = [
      [0, 0],
      [40, 0],
      [0, 9],
    ];
    const input: OpeningInput = {
      stoma: { outline: wedge },
      clearanceMm: 1,
      barrier: { shape: "round", diameterMm: 65 },
    };
    expect(openingFor(input).barrierCentreMm![0]).toBeCloseTo(20, 0);
    expect(openingFor(input).fits).toBe(true);
    expect(codes({ ...input, barrierCentreMm: [13, 3] })).toContain("barrierMarginTooSmall");
    expect(openingFor({ stoma, clearanceMm: 2 }).barrierCentreMm).toBeNull();
  });

  it("may be cut no larger than its limit", () => {
    expect(codes({ stoma, clearanceMm: 2, maxOpeningMm: 32 })).toEqual([]);
    const input: OpeningInput = { stoma, clearanceMm: 2, maxOpeningMm: 30 };
    expect(openingFor(input).fits).toBe(false);
    expect(reason(input, "largerThanMaxOpening")!.params.acrossMm).toBeCloseTo(32, 1);
  });

  it("comes with a hole that must lie inside the opening on every side", () => {
    expect(codes({ stoma: oval(35, 14), clearanceMm: 1, starterHoleMm: 16 })).toEqual([]);
    const input: OpeningInput = { stoma: oval(35, 14), clearanceMm: 1, starterHoleMm: 20 };
    expect(openingFor(input).fits).toBe(false);
    expect([3, 9]).toContain(reason(input, "smallerThanStarterHole")!.params.clockHour);
  });
});

describe("the opening as a topic", () => {
  it("runs its own example", () => {
    const opening = openingTopic.run(parseInput(openingTopic.schema, openingTopic.example));
    expect(opening.fits).toBe(true);
  });

  it("refuses fields it does not know, and numbers that are none", () => {
    const wrong = { stoma: round(28), clearanceMm: "2", clearence: 2 };
    try {
      parseInput(openingSchema, wrong);
      expect.unreachable();
    } catch (error) {
      const paths = (error as InputError).faults.map(({ path }) => path);
      expect(paths).toEqual(["clearanceMm", "clearence"]);
    }
  });
});
