import { describe, expect, it } from "vitest";
import { logIntervalProbability, truncate } from "./normalInterval.ts";

describe("the chance that a normal value lies between two limits", () => {
  // mpmath 1.3, 30 digits: log(ncdf(-a) - ncdf(-b))
  it.each([
    [3, 5, -6.60793859459689],
    [24.9, 26, -314.140412761614],
    [25.1, 26, -319.148387405988],
    [40, 43, -804.608442013754],
    [5, 5 + 1.1e-5, -24.8365813182647],
    [5, 5 + 0.9e-5, -25.0372470137619],
  ])("keeps its logarithm from %f to %f, far out and narrow", (lower, upper, expected) => {
    expect(logIntervalProbability(lower, upper)).toBeCloseTo(expected, 7);
    expect(logIntervalProbability(-upper, -lower)).toBeCloseTo(expected, 7);
  });

  it("is 0.6827 within one standard deviation", () => {
    expect(Math.exp(logIntervalProbability(-1, 1))).toBeCloseTo(0.682689492137, 11);
  });
});

describe("what a ring leaves of a believed size", () => {
  it("moves a size believed too small into the ring and narrows it", () => {
    const after = truncate(30, 4, 0.5, 31.75, 34.925);
    expect(after.mean).toBeGreaterThan(31);
    expect(after.mean).toBeLessThan(34.925);
    expect(after.variance).toBeLessThan(4);
  });

  it("has the moments of direct integration", () => {
    const [mean, variance, errorVariance, above, upTo] = [32.5, 2.25, 0.74, 31.75, 34.925] as const;
    let [mass, first, second] = [0, 0, 0];
    for (let size = 20; size < 45; size += 0.001) {
      const error = Math.sqrt(errorVariance);
      const likelihood = Math.exp(logIntervalProbability((above - size) / error, (upTo - size) / error));
      const weight = likelihood * Math.exp(-0.5 * ((size - mean) ** 2 / variance));
      mass += weight;
      first += weight * size;
      second += weight * size * size;
    }
    const after = truncate(mean, variance, errorVariance, above, upTo);
    expect(after.mean).toBeCloseTo(first / mass, 6);
    expect(after.variance).toBeCloseTo(second / mass - (first / mass) ** 2, 6);
  });
});
