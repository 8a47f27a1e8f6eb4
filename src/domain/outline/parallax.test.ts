import { describe, expect, it } from "vitest";
import { magnification } from "./parallax.ts";

describe("the rim of a stoma seen from above", () => {
  // The facts' section 1 and check value 7, arithmetic from similar triangles.
  it.each([
    [20, 300, 1.07143],
    [25, 300, 1.0909],
    [20, 400, 1.0526],
    [10, 300, 1.0345],
    [5, 400, 1.0127],
    [0, 300, 1],
  ])("%d mm high from %d mm looks %d times as large", (heightMm, distanceMm, times) => {
    expect(magnification(heightMm, distanceMm)).toBeCloseTo(times, 4);
  });

  it("looks smaller where it lies below the skin", () => {
    expect(magnification(-5, 300)).toBeLessThan(1);
  });

  it("cannot be seen by a camera inside it", () => {
    expect(() => magnification(20, 20)).toThrow("distanceMm: is not above what it looks at");
  });
});
