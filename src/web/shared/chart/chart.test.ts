import { describe, expect, it } from "vitest";
import { band, path, scale, stepPath, ticks } from "./index.ts";

describe("a scale", () => {
  it("takes the ends of one range to the ends of the other", () => {
    const x = scale([0, 56], [96, 680]);
    expect(x(0)).toBe(96);
    expect(x(56)).toBe(680);
    expect(x(28)).toBe(388);
  });

  it("does not divide by nothing", () => {
    expect(scale([5, 5], [0, 100])(5)).toBe(0);
  });
});

describe("ticks", () => {
  it("stand on round values inside the range", () => {
    expect(ticks([23, 43], 5)).toEqual([25, 30, 35, 40]);
    expect(ticks([0, 4.4], 5)).toEqual([0, 1, 2, 3, 4]);
  });

  it("are never more than asked for, give or take the ends", () => {
    for (const most of [2, 3, 5, 8]) expect(ticks([0, 137.2], most).length).toBeLessThanOrEqual(most + 1);
  });
});

it("a band is the upper line and back along the lower", () => {
  expect(
    band(
      [
        [0, 1],
        [10, 2],
      ],
      [
        [0, 5],
        [10, 6],
      ],
    ),
  ).toBe("M0.0 1.0L10.0 2.0L10.0 6.0L0.0 5.0Z");
  expect(band([], [])).toBe("");
});

it("a stepped line stays level until it steps", () => {
  expect(path([[0, 0]])).toBe("M0.0 0.0");
  expect(
    stepPath([
      [0, 40],
      [10, 36],
    ]),
  ).toBe("M0.0 40.0H10.0V36.0");
});
