import chiSquareCdf from "@stdlib/stats-base-dists-chisquare-cdf";
import { describe, expect, it } from "vitest";
import { gammaTail, logGamma } from "./gammaTail.ts";

// scipy 1.17.1, scipy.special.gammaincc
const tails: [shape: number, x: number, tail: number][] = [
  [0.01, 1e-5, 1.036632017328e-1],
  [0.3, 0.1, 4.540871504082e-1],
  [0.5, 2, 4.550026389636e-2],
  [1, 3, 4.978706836786e-2],
  [4.2, 4.1, 4.543806875282e-1],
  [4.2, 12, 2.971085576118e-3],
  [30, 25, 8.178960840225e-1],
  [30, 60, 6.876264968732e-6],
  [500, 480, 8.137180268097e-1],
  [500, 560, 4.693165999295e-3],
  [4000, 4100, 5.781182378794e-2],
];

describe("the tail of a gamma variable", () => {
  it.each(tails)("of shape %d at %d is scipy's", (shape, x, tail) => {
    expect(Math.abs(gammaTail(shape, x) / tail - 1)).toBeLessThan(1e-9);
  });

  it("is that of chi-square with twice the shape at twice the value, against stdlib", () => {
    for (const shape of [0.2, 1, 3.7, 25, 180])
      for (const x of [0.05, 1, 4, 30, 200])
        expect(gammaTail(shape, x)).toBeCloseTo(1 - chiSquareCdf(2 * x, 2 * shape), 10);
  });

  it("is 1 at nothing and keeps within 0 and 1 far out", () => {
    expect(gammaTail(3, 0)).toBe(1);
    for (const shape of [1e-9, 1, 1e6]) {
      for (const x of [1e-12, 1, 1e7]) {
        const tail = gammaTail(shape, x);
        expect(tail >= 0 && tail <= 1).toBe(true);
      }
    }
  });
});

it("log Γ is that of factorials and of a half", () => {
  expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.sqrt(Math.PI)), 12);
  expect(logGamma(11)).toBeCloseTo(Math.log(3_628_800), 12);
  expect(logGamma(1)).toBeCloseTo(0, 12);
});
