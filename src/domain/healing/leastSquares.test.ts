import { describe, expect, it } from "vitest";
import { leastSquares } from "./leastSquares.ts";

const points = (...pairs: [number, number][]) => pairs.map(([day, mm]) => ({ day, mm }));

describe("least squares finds no curve", () => {
  it.each([
    ["level sizes", points([1, 30], [8, 30], [15, 30], [22, 30])],
    ["sizes on a straight line", points([1, 40], [8, 38], [15, 36], [22, 34])],
    ["sizes that fall faster and faster", points([1, 40], [8, 39], [15, 36], [22, 31])],
    ["two days only", points([1, 40], [1, 39], [8, 36], [8, 35])],
    ["one reading", points([1, 40])],
  ])("in %s", (_what, readings) => {
    expect(leastSquares(readings)).toBeNull();
  });
});

it("passes through three readings that bend, with nothing left to tell errors by", () => {
  const fit = leastSquares(points([0, 40], [7, 35], [14, 32]))!;
  expect(fit.curve.startMm).toBeCloseTo(40, 9);
  // falls of 5 and 3 mm: each week leaves three fifths, so 40 − 5 / (1 − 3/5) remains
  expect(fit.curve.finalMm).toBeCloseTo(27.5, 9);
  expect(fit.curve.timeConstantDays).toBeCloseTo(7 / Math.log(5 / 3), 8);
  expect(fit.covariance).toBeNull();
});

it("finds a rising curve too", () => {
  const rising = [2, 9, 16, 23, 30].map((day) => ({ day, mm: 35 - 6 * Math.exp(-day / 12) }));
  const fit = leastSquares(rising)!;
  expect(fit.curve.startMm).toBeCloseTo(29, 7);
  expect(fit.curve.finalMm).toBeCloseTo(35, 7);
  expect(fit.curve.timeConstantDays).toBeCloseTo(12, 6);
});
