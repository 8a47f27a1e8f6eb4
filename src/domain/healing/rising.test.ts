import { describe, expect, it } from "vitest";
import { healingCurve } from "./healingCurve.ts";
import type { HealingReading, ReadingMethod } from "./readings.ts";

const STEP_MM = 3.175;

const weekly = (method: ReadingMethod, ...sizes: number[]): HealingReading[] =>
  sizes.map((diameterMm, i) => ({ day: 7 + 7 * i, diameterMm, method }));

const rings = (...numbers: number[]) => weekly("guide", ...numbers.map((ring) => ring * STEP_MM));

const codes = (readings: HealingReading[]) => healingCurve({ readings }).notes.map(({ code }) => code);
const rising = (readings: HealingReading[]) => healingCurve({ readings }).rising;

describe("a rise after week 2 is a flag", () => {
  it("when a tracing is 6 mm larger than the one before", () => {
    const result = healingCurve({ readings: weekly("tracing", 36, 33, 32, 31.5, 37.5) });
    expect(result.rising).toBe(true);
    const note = result.notes.find(({ code }) => code === "rising")!;
    expect(note.params).toMatchObject({ onDay: 35 });
    expect(note.params.byMm).toBeGreaterThan(5);
    expect(note.text).toMatch(/blockage, hernia and prolapse/);
  });

  it("when the size has crept up since a low some weeks ago", () => {
    expect(rising(weekly("tracing", 36, 32, 30, 31.2, 32.5, 33.8, 35.1))).toBe(true);
  });

  it("when a guide has gone up by more rings than rounding can explain", () => {
    expect(rising(rings(11, 10, 10, 10, 12))).toBe(true);
  });

  it("for as long as it stays up, not only in the week it happens", () => {
    expect(rising(weekly("tracing", 36, 31, 30, 36, 36.2, 35.9))).toBe(true);
  });

  it("and the stoma is measured at the next change, with none cut ahead", () => {
    const result = healingCurve({ readings: weekly("tracing", 36, 33, 32, 31.5, 37.5) });
    expect(result.measureAgainOnDay).toBe(38);
    expect(result.notes.find(({ code }) => code === "advisedDays")!.params.cutAheadUntilDay).toBeNull();
  });
});

describe("while the size rises", () => {
  const readings = weekly("tracing", 36, 33, 32, 31.5, 37.5);

  it("no day is given until which an opening fits, and a note says why", () => {
    const result = healingCurve({ readings, opening: { diameterMm: 41 } });
    expect(result.fitsUntilDay).toBeNull();
    expect(result.notes.map(({ code }) => code)).toContain("noFitWhileRising");
  });

  it("an opening inside the stoma is still named, by the last reading alone", () => {
    const result = healingCurve({ readings, opening: { diameterMm: 35 } });
    expect(result.notes.map(({ code }) => code)).toContain("openingTooSmall");
  });
});

describe("noise is not a flag", () => {
  it("one ring more proves no rise: the size may have slipped over the ring's edge", () => {
    expect(rising(rings(11, 10, 10, 11))).toBe(false);
    expect(rising(rings(10, 10, 10, 10, 10, 10, 11))).toBe(false);
    expect(codes(rings(11, 10, 10, 11))).toContain("largerRing");
  });

  it("a millimetre between two tracings is posture and pen", () => {
    expect(rising(weekly("tracing", 36, 33, 32, 31.5, 32.5))).toBe(false);
  });

  it("swelling in the first two weeks is expected", () => {
    expect(
      rising([3, 8, 13].map((day, i) => ({ day, diameterMm: [34, 38, 42][i]!, method: "tracing" }))),
    ).toBe(false);
  });

  it("a size that rose and has come down again is no rise any more", () => {
    expect(rising(weekly("tracing", 36, 33, 32, 38, 31))).toBe(false);
  });

  it("a large rise of sizes estimated by eye is within their error", () => {
    expect(rising(weekly("estimated", 36, 33, 32, 31.5, 37.5))).toBe(false);
  });
});
