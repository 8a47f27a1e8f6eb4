import { describe, expect, it } from "vitest";
import { exposedSkin } from "../../../../domain/exposed/index.ts";
import { outlineOf } from "../../../../domain/outline/index.ts";
import { atHour, frameOf, furthestMm, toMm, toPx, viewBeside, viewFor } from "./frame.ts";
import { gapToShow, isHeavy } from "./GapFigures.tsx";
import { hatchingOf } from "./Hatching.tsx";
import { plateSummary } from "./summary.ts";

describe("the plate keeps millimetres true to one another", () => {
  it.each([
    ["a desk", 590, 16],
    ["a phone", 390, 16],
    ["a phone with text at 200 %", 390, 32],
  ])(
    "on %s the view fits inside the clock, and what is written round it has room",
    (_name, widthPx, rootPx) => {
      const frame = frameOf(widthPx, rootPx, 20);
      expect(frame.pxPerMm).toBeGreaterThan(3);
      expect(20 * frame.pxPerMm).toBeLessThan(frame.ringPx - 2.5 * frame.textPx);
      const sides = Array.from({ length: 12 }, (_, i) =>
        atHour(frame, i + 1, frame.ringPx + 7 + 1.3 * frame.textPx),
      );
      for (const [x, y] of sides) {
        expect(x).toBeGreaterThan(0);
        expect(x).toBeLessThan(frame.widthPx);
        expect(y).toBeGreaterThan(0);
        expect(y).toBeLessThan(frame.heightPx);
      }
    },
  );

  it("text grows with the reader's size as far as twelve figures still stand round the clock", () => {
    expect(frameOf(590, 20, 20).textPx).toBe(20);
    expect(frameOf(390, 32, 20).textPx).toBeLessThan(21);
    expect(frameOf(390, 32, 20).textPx).toBeGreaterThan(frameOf(390, 16, 20).textPx);
  });

  it("up the plate is toward the head, right of it the person's left", () => {
    const frame = frameOf(590, 16, 20);
    const [x, y] = toPx(frame, [3, 5]);
    expect(x).toBeCloseTo(frame.centrePx[0] + 3 * frame.pxPerMm, 9);
    expect(y).toBeCloseTo(frame.centrePx[1] - 5 * frame.pxPerMm, 9);
    expect(toMm(frame, [x, y])[0]).toBeCloseTo(3, 9);
    expect(atHour(frame, 3, 10)[0]).toBeCloseTo(frame.centrePx[0] + 10, 9);
  });

  it("shows as much as the largest outline needs, in steps", () => {
    expect([viewFor(9), viewFor(18.4), viewFor(20.1), viewFor(400)]).toEqual([10, 20, 25, 105]);
    expect([viewBeside(20, 1), viewBeside(20, -1), viewBeside(10, -1), viewBeside(105, 1)]).toEqual([
      25, 15, 10, 105,
    ]);
    expect(furthestMm([null, [[3, 4]], undefined])).toBe(5);
  });
});

describe("gaps past the protocol's value", () => {
  it("are heavy by the figure itself, not by what it rounds to", () => {
    expect([isHeavy(3.2, 3.2), isHeavy(3.21, 3.2), isHeavy(-0.01, 3.2)]).toEqual([false, true, true]);
  });

  it("are hatched denser, and denser still a quarter past", () => {
    expect([3.2, 3.3, 4, 4.1].map((gap) => hatchingOf(gap, 3.2))).toEqual([0, 1, 1, 2]);
  });

  it("where the opening cuts into the stoma that is shown before the widest gap beside it", () => {
    expect(gapToShow({ hour: 3, maxGapMm: 2, minGapMm: -0.4 })).toBe(-0.4);
    expect(gapToShow({ hour: 3, maxGapMm: 2, minGapMm: 1 })).toBe(2);
    expect(gapToShow({ hour: 3, maxGapMm: null, minGapMm: null })).toBeNull();
  });
});

describe("the plate in words", () => {
  const stoma = outlineOf({ guide: { shape: "oval", lengthMm: 31, widthMm: 28, tiltDeg: 0 } });
  const figures = (diameterMm: number) => {
    const outline = outlineOf({ guide: { shape: "round", diameterMm } });
    const exposed = exposedSkin({ stoma: { outline: stoma }, opening: { outline } });
    return {
      outline,
      exposed,
      gapEachSideMm: { min: exposed.minGapMm, max: exposed.maxGapMm },
      holeAcrossMm: { min: diameterMm, max: diameterMm },
    };
  };

  it("says size, gaps, where they are widest and which pass the protocol", () => {
    const words = plateSummary({
      size: { lengthMm: 31, widthMm: 28 },
      recorded: false,
      inUse: figures(36.6),
      proposed: null,
      limitMm: 3.2,
    });
    expect(words).toContain("31.0 mm long, head to foot, and 28.0 mm wide");
    expect(words).toContain("a gap of 2.8 to 4.3 mm each side");
    expect(words).toMatch(/over the protocol’s 3\.2 mm at [\d, ]*3, 4[\d, ]* o’clock/);
  });

  it("without a size says so", () => {
    const words = plateSummary({ size: null, recorded: false, inUse: null, proposed: null, limitMm: 3.2 });
    expect(words).toContain("No size yet");
  });
});
