import { expect, it } from "vitest";
import { studentQuantile } from "./studentT.ts";

// Abramowitz & Stegun, table 26.10, to three places
it.each([
  [0.9, 1, 3.078],
  [0.9, 2, 1.886],
  [0.9, 5, 1.476],
  [0.9, 30, 1.31],
  [0.975, 4, 2.776],
  [0.975, 120, 1.98],
])("Student's t: quantile %f at %i degrees of freedom is %f", (share, degreesOfFreedom, expected) => {
  expect(studentQuantile(share, degreesOfFreedom)).toBeCloseTo(expected, 3);
});

it("runs into the normal quantile", () => {
  expect(studentQuantile(0.9, 999)).toBeCloseTo(studentQuantile(0.9, 1000), 2);
  expect(studentQuantile(0.9, 100_000)).toBeCloseTo(1.2815515655, 9);
});
