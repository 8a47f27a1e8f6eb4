/**
 * Maps between planes, colours and markers against OpenCV, SciPy, published pairs and exact arithmetic.
 * @source test/reference/data/04-homography.json, 06-colour.json, aruco-4x4-50.json: software and conventions inside
 */
import { describe, expect, it } from "vitest";
import { card } from "../../src/domain/frame-card/index.ts";
import { colourDifference } from "../../src/domain/photo/colour/difference.ts";
import { type Lab, labOf } from "../../src/domain/photo/colour/lab.ts";
import { lightOfByte } from "../../src/domain/photo/colour/srgb.ts";
import { homographyOf, mapped, type Place } from "../../src/domain/photo/mapping/homography.ts";
import homography from "./data/04-homography.json" with { type: "json" };
import colour from "./data/06-colour.json" with { type: "json" };
import aruco from "./data/aruco-4x4-50.json" with { type: "json" };

const place = (point: readonly number[]): Place => [point[0]!, point[1]!];
const apart = (a: Place, b: readonly number[]) => Math.hypot(a[0] - b[0]!, a[1] - b[1]!);

describe.each(homography.cases.map((one) => [one.id, one] as const))("the map of %s", (id, one) => {
  const map = homographyOf(one.src.map((from, at) => ({ from: place(from), to: place(one.dst[at]!) })));
  const farthest = (expected: readonly number[][]) =>
    Math.max(...one.test_points.map((point, at) => apart(mapped(map, place(point)), expected[at]!)));

  it("is that of SciPy's least squares", () => {
    const tolerance = id.includes("noise") ? 1e-3 : 1e-6;
    expect(farthest(one.least_squares.mapped_test_points)).toBeLessThan(tolerance);
  });

  it("is that of OpenCV within its own rounding", () => {
    expect(farthest(one.opencv_method0.mapped_test_points)).toBeLessThan(1e-3);
  });
});

describe("colours", () => {
  it.each(colour.srgb_to_lab.map((one) => [one.name, one] as const))("%s has its CIE Lab", (_name, one) => {
    const [red, green, blue] = one.rgb.map(lightOfByte) as [number, number, number];
    labOf(red, green, blue).forEach((value, at) => {
      expect(Math.abs(value - one.lab_exact[at]!)).toBeLessThan(0.02);
    });
  });

  // The 34 pairs printed in table 1 of Sharma, Wu & Dalal, Color Research & Application 2005;30:21-30.
  it.each(colour.ciede2000.map((one) => [one.pair, one] as const))(
    "pair %i differs as printed",
    (_pair, one) => {
      const difference = colourDifference(one.lab1 as unknown as Lab, one.lab2 as unknown as Lab);
      expect(Math.abs(difference - one.de00)).toBeLessThan(1e-4);
      const back = colourDifference(one.lab2 as unknown as Lab, one.lab1 as unknown as Lab);
      expect(back).toBeCloseTo(difference, 10);
    },
  );
});

describe("the card's markers", () => {
  it.each(card.markers.map((marker) => [marker.id, marker] as const))(
    "number %i has the modules of OpenCV's DICT_4X4_50",
    (id, marker) => {
      expect(marker.modules).toEqual(aruco.markers.find((one) => one.id === id)!.modules);
    },
  );

  it("can be told apart with one module misread, however the card is turned", () => {
    const inner = (modules: readonly (readonly number[])[]) =>
      modules.slice(1, 5).map((row) => row.slice(1, 5));
    const turned = (rows: number[][]) => rows.map((_, r) => rows.map((_, c) => rows[c]![3 - r]!));
    const apartBy = (a: number[][], b: number[][]) =>
      a.flat().reduce((sum, bit, at) => sum + (bit === b.flat()[at] ? 0 : 1), 0);
    for (const one of card.markers) {
      for (const other of card.markers) {
        let rows = inner(other.modules);
        for (let turn = 0; turn < 4; turn++) {
          if (one.id !== other.id || turn > 0) expect(apartBy(inner(one.modules), rows)).toBeGreaterThan(2);
          rows = turned(rows);
        }
      }
    }
  });
});
