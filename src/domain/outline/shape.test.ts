import { describe, expect, it } from "vitest";
import { InputError } from "../fault.ts";
import { dimensionsOf } from "./measure.ts";
import { areaMm2, signedAreaMm2 } from "./polygon.ts";
import { type Outline, outlineOf } from "./shape.ts";

const square: Outline = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];

function refusal(outline: Outline, path?: string): string {
  try {
    outlineOf({ outline }, path);
  } catch (error) {
    if (error instanceof InputError) return error.message;
  }
  return "accepted";
}

describe("a guide reading", () => {
  it("of 28 mm becomes a polygon that the calipers read as 28 mm, its area within 0.01 % of the circle's", () => {
    const outline = outlineOf({ guide: { shape: "round", diameterMm: 28 } });
    expect(dimensionsOf(outline).feretMaxMm).toBeCloseTo(28, 9);
    expect(Math.abs(areaMm2(outline) / (Math.PI * 14 ** 2) - 1)).toBeLessThan(1e-4);
  });

  it("of an oval of 35 x 25 mm keeps its area within 0.01 % of the ellipse's", () => {
    const outline = outlineOf({ guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg: 33 } });
    expect(Math.abs(areaMm2(outline) / (Math.PI * 17.5 * 12.5) - 1)).toBeLessThan(1e-4);
  });

  it("of an upright oval is long from head to foot", () => {
    const outline = outlineOf({ guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg: 0 } });
    const { lengthMm, widthMm } = dimensionsOf(outline);
    expect([lengthMm, widthMm]).toEqual([35, 25]);
  });

  it("tilted by 90 degrees is long from side to side", () => {
    const outline = outlineOf({ guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg: 90 } });
    const { lengthMm, widthMm } = dimensionsOf(outline);
    expect(lengthMm).toBeCloseTo(25, 9);
    expect(widthMm).toBeCloseTo(35, 9);
  });

  it("tilted by a positive angle leans its head end to the person's left", () => {
    const outline = outlineOf({ guide: { shape: "oval", lengthMm: 40, widthMm: 10, tiltDeg: 30 } });
    const head = outline.reduce((a, b) => (b[1] > a[1] ? b : a));
    expect(head[0]).toBeGreaterThan(5);
  });

  it("too small or too large to compute with is refused, not answered with nothing", () => {
    expect(() => outlineOf({ guide: { shape: "round", diameterMm: 1e200 } })).toThrow(InputError);
    expect(() => outlineOf({ guide: { shape: "round", diameterMm: 1e-200 } })).toThrow(InputError);
  });
});

describe("an outline", () => {
  it("drawn clockwise comes back counterclockwise, from the same first point", () => {
    const clockwise = [...square].reverse();
    const outline = outlineOf({ outline: clockwise });
    expect(signedAreaMm2(outline)).toBe(100);
    expect(outline[0]).toEqual(clockwise[0]);
  });

  it("loses points that repeat the one before, and a last one that repeats the first", () => {
    const repeated = [...square.flatMap((point) => [point, point]), square[0]!, square[0]!];
    expect(outlineOf({ outline: repeated })).toEqual(square);
  });

  it("keeps points on its straight edges", () => {
    const [first, ...rest] = square;
    expect(outlineOf({ outline: [first!, [5, 0], ...rest] })).toHaveLength(5);
  });

  it("with fewer than three different points is refused", () => {
    expect(
      refusal([
        [0, 0],
        [1, 1],
        [0, 0],
        [0, 0],
      ]),
    ).toContain("outline: has too few different points");
  });

  it("whose points lie on one line encloses no area", () => {
    expect(
      refusal([
        [0, 0],
        [1, 2],
        [2, 4],
      ]),
    ).toContain("outline: encloses no area");
  });

  it("that crosses itself is refused with the two edges and the place", () => {
    const bow: Outline = [
      [0, 0],
      [10, 10],
      [10, 0],
      [0, 10],
    ];
    expect(refusal(bow, "stoma")).toContain(
      "stoma.outline: crosses itself: edge 0 from (0, 0) to (10, 10) and edge 2 from (10, 0) to (0, 10) meet at (5, 5) mm",
    );
  });

  it("names edges by the points as they were given, repeats and all", () => {
    const bow: Outline = [
      [0, 0],
      [0, 0],
      [10, 10],
      [10, 10],
      [10, 0],
      [0, 10],
    ];
    expect(refusal(bow)).toContain("edge 0 from (0, 0) to (10, 10) and edge 4 from (10, 0) to (0, 10)");
  });

  it("that touches itself or folds back on itself is refused too", () => {
    expect(
      refusal([
        [0, 0],
        [10, 0],
        [10, 10],
        [5, 0],
        [0, 10],
      ]),
    ).toContain("touches itself");
    expect(
      refusal([
        [0, 0],
        [10, 0],
        [4, 0],
        [4, 5],
      ]),
    ).toContain("folds back on itself");
  });
});
