import { describe, expect, it } from "vitest";
import { fluid } from "./index.ts";

/** Whole days of November, with the days left out that hold null. */
const trendOf = (ml: (number | null)[], hoursCovered = 24) =>
  fluid({
    stomaType: "ileostomy",
    setting: "home",
    days: ml.flatMap((stomaMl, i) =>
      stomaMl === null ? [] : [{ date: `2026-11-${String(i + 1).padStart(2, "0")}`, hoursCovered, stomaMl }],
    ),
  }).trend;

describe("a person's own usual range", () => {
  it("needs five whole days before the last", () => {
    expect(trendOf([700, 720, 690, 710, 705]).usualMl).toBeNull();
    expect(trendOf([700, 720, 690, 710, 705, 900]).usualMl!.days).toBe(5);
    expect(trendOf([700, 720, 690, 710, 705, 900], 20).usualMl).toBeNull();
  });

  it("is the median, give or take two robust deviations; the last day is held against those before", () => {
    const { usualMl, last } = trendOf([700, 720, 690, 710, 705, 900]);
    // Deviations from 705: 0, 5, 5, 15, 15; the middle one is 5.
    expect(usualMl!.median).toBe(705);
    expect(usualMl!.upper).toBeCloseTo(705 + 2 * 1.4826 * 5, 2);
    expect(last).toEqual({ date: "2026-11-06", ml: 900, outside: "above" });
  });

  it("is not moved by one day out of the ordinary", () => {
    const { usualMl } = trendOf([700, 720, 3000, 690, 710, 705, 700]);
    expect(usualMl!.upper).toBeLessThan(760);
  });

  it.each([
    [705, null],
    [500, "below"],
    [900, "above"],
  ])("a day of %i mL lies %s", (ml, outside) => {
    expect(trendOf([700, 720, 690, 710, 705, ml]).last!.outside).toBe(outside);
  });
});

describe("the change from day to day", () => {
  // scipy 1.17.1, scipy.stats.theilslopes(y, x, 0.8)
  it.each([
    [[910, 1040, 870, null, 1120, 990, 1210, 1060, null, 1330, 1180], 37.125, 16, 42],
    [[800, 760, 830, 790, 700, 640, 720, 610], -27.32142857142857, -40, -15],
  ])("of %j mL is scipy's Theil-Sen slope", (ml, estimate, lower, upper) => {
    const { slopeMlPerDay } = trendOf(ml);
    expect(slopeMlPerDay!.estimate).toBeCloseTo(estimate, 9);
    expect([slopeMlPerDay!.lower, slopeMlPerDay!.upper]).toEqual([lower, upper]);
  });

  it("is not told from a few days", () => {
    expect(trendOf([700, 800, 900, 1000, 1100]).slopeMlPerDay).toBeNull();
  });
});
