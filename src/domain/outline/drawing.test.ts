import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boundaryOf } from "./boundary.ts";
import { findCrossing } from "./crossing.ts";
import { curveThrough } from "./curve.ts";
import { handleErrorMm, handlesOf, outlineFromHandles } from "./handles.ts";
import { dimensionsOf } from "./measure.ts";
import { areaMm2, perimeterMm } from "./polygon.ts";
import { type Outline, outlineOf, type Point } from "./shape.ts";
import { simplify } from "./simplify.ts";
import { evenlySpaced } from "./spacing.ts";
import { smoothTracing } from "./tracing.ts";

const round = (diameterMm: number) => outlineOf({ guide: { shape: "round", diameterMm } });
const oval = outlineOf({ guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg: 20 } });

/** Always the same uneven numbers between -1 and 1. */
const uneven = (at: number) => 2 * ((Math.sin(12.9898 * (at + 1)) * 43758.5453) % 1);

/** A stroke round a ring: from one turn to another (in whole turns), with jitter in mm. */
function stroke(fromTurn: number, toTurn: number, radiusMm: number, jitterMm = 0): Point[] {
  const count = Math.round(200 * (toTurn - fromTurn));
  return Array.from({ length: count + 1 }, (_, at): Point => {
    const turn = 2 * Math.PI * (fromTurn + ((toTurn - fromTurn) * at) / count);
    const radius = radiusMm + jitterMm * uneven(at);
    return [radius * Math.cos(turn), radius * Math.sin(turn)];
  });
}

describe("handles", () => {
  it("of a round stoma are its radius at every hour and give it back", () => {
    const handles = handlesOf(round(28))!;
    expect(handles.radiiMm).toHaveLength(12);
    for (const radius of handles.radiiMm) expect(radius).toBeCloseTo(14, 3);
    expect(handleErrorMm(round(28))).toBeLessThan(0.001);
  });

  it("give an oval of 35 x 25 mm back within 0.13 mm with 12 of them, 0.01 mm with 24", () => {
    expect(handleErrorMm(oval, 12)).toBeLessThan(0.13);
    expect(handleErrorMm(oval, 24)).toBeLessThan(0.01);
  });

  it("stand on the curve: what was set at an hour is there afterwards", () => {
    const radiiMm = [14, 15, 13, 12, 12, 13, 14, 16, 15, 14, 13, 13];
    const again = handlesOf(outlineFromHandles({ centreMm: [3, -2], radiiMm }))!;
    const curve = boundaryOf(outlineFromHandles({ centreMm: [3, -2], radiiMm }));
    radiiMm.forEach((radius, hour) => {
      const turn = (hour * Math.PI) / 6;
      expect(curve.distanceMm(3 + radius * Math.sin(turn), -2 + radius * Math.cos(turn))).toBeLessThan(1e-9);
    });
    expect(again.centreMm).not.toEqual([3, -2]);
  });

  it("move nothing beyond the third handle on each side", () => {
    const radiiMm = Array.from({ length: 12 }, () => 14);
    const before = outlineFromHandles({ centreMm: [0, 0], radiiMm });
    const after = outlineFromHandles({ centreMm: [0, 0], radiiMm: radiiMm.with(0, 18) });
    const still = after.filter(([x, y]) => Math.atan2(Math.abs(x), y) > Math.PI / 2 + 1e-9);
    expect(still.length).toBeGreaterThan(100);
    for (const [x, y] of still) expect(boundaryOf(before).distanceMm(x, y)).toBeLessThan(1e-9);
  });

  it("never make an outline that runs through itself, however wildly they are set", () => {
    const radii = fc.array(fc.double({ min: 0.5, max: 60, noNaN: true }), { minLength: 3, maxLength: 24 });
    fc.assert(
      fc.property(radii, (radiiMm) => {
        expect(findCrossing(outlineFromHandles({ centreMm: [0, 0], radiiMm }))).toBeNull();
      }),
      { numRuns: 60 },
    );
  });

  it("are missing for a horseshoe, whose centroid sees no outline at its mouth", () => {
    const horseshoe: Outline = [
      [-12, 0],
      [12, 0],
      [12, 24],
      [9, 24],
      [9, 3],
      [-9, 3],
      [-9, 24],
      [-12, 24],
    ];
    expect(handlesOf(horseshoe)).toBeNull();
    expect(handleErrorMm(horseshoe)).toBeNull();
  });
});

describe("the curve through tapped points", () => {
  it("passes all of them and stays within 0.1 mm of the ring they were tapped on", () => {
    const tapped = round(30).filter((_, at) => at % 30 === 0);
    const curve = curveThrough(tapped);
    for (const [x, y] of tapped) expect(boundaryOf(curve).distanceMm(x, y)).toBeLessThan(1e-9);
    for (const [x, y] of curve) expect(Math.abs(Math.hypot(x, y) - 15)).toBeLessThan(0.1);
    expect(findCrossing(curve)).toBeNull();
  });
});

describe("a hand-drawn stroke", () => {
  it("keeps the size of a ring of 28 mm to a hundredth of a millimetre", () => {
    const { outline, jitterMm } = smoothTracing(stroke(0, 1, 14));
    const { feretMaxMm, feretMinMm } = dimensionsOf(outline);
    expect(Math.abs(feretMaxMm - 28)).toBeLessThan(0.01);
    expect(Math.abs(feretMinMm - 28)).toBeLessThan(0.01);
    expect(jitterMm).toBeLessThan(0.01);
  });

  it("keeps the length of an infant's oval of 10 x 6 mm to 0.04 mm and its area to 0.2 %", () => {
    const small = outlineOf({ guide: { shape: "oval", lengthMm: 10, widthMm: 6, tiltDeg: 0 } });
    const { outline } = smoothTracing(small);
    expect(Math.abs(dimensionsOf(outline).lengthMm - 10)).toBeLessThan(0.04);
    expect(Math.abs(areaMm2(outline) / areaMm2(small) - 1)).toBeLessThan(0.002);
  });

  it("drawn with a shaky hand comes out smoother and as large", () => {
    const shaky = stroke(0, 1, 14, 0.3);
    const { outline, jitterMm } = smoothTracing(shaky);
    expect(jitterMm).toBeGreaterThan(0.08);
    expect(perimeterMm(outline)).toBeLessThan(0.95 * perimeterMm(shaky));
    expect(Math.abs(areaMm2(outline) / (Math.PI * 14 ** 2) - 1)).toBeLessThan(0.01);
  });

  it("whose ends do not meet is closed, and the gap is told", () => {
    const { outline, gapMm } = smoothTracing(stroke(0, 0.97, 14));
    expect(gapMm).toBeCloseTo(2 * 14 * Math.sin(0.03 * Math.PI), 1);
    expect(Math.abs(areaMm2(outline) / (Math.PI * 14 ** 2) - 1)).toBeLessThan(0.01);
  });

  it("that runs on past its beginning loses the surplus, whether it crosses there or not", () => {
    const over = stroke(0, 1.1, 14).map(([x, y], at): Point => [x * (1 + at * 1e-4), y * (1 + at * 1e-4)]);
    const crossing = stroke(-0.05, 1.05, 14).map(([x, y], at): Point => [x + 0.004 * (at - 110), y]);
    for (const points of [over, crossing]) {
      const { outline, gapMm } = smoothTracing(points);
      expect(findCrossing(outline)).toBeNull();
      expect(gapMm).toBeLessThan(1);
      expect(Math.abs(dimensionsOf(outline).feretMaxMm - 28)).toBeLessThan(0.8);
    }
  });

  it("of fewer than three points, or in a figure of eight, is refused", () => {
    expect(() =>
      smoothTracing([
        [0, 0],
        [1, 1],
        [1, 1],
      ]),
    ).toThrow(/too few different points/);
    const eight = Array.from({ length: 200 }, (_, at): Point => {
      const turn = (2 * Math.PI * (at + 20)) / 200;
      return [15 * Math.sin(turn), 8 * Math.sin(2 * turn)];
    });
    expect(() => smoothTracing(eight)).toThrow(/crosses itself/);
  });
});

describe("fewer points", () => {
  it("keep every dropped point within the tolerance", () => {
    const fewer = simplify(oval, 0.05);
    expect(fewer.length).toBeLessThan(60);
    const boundary = boundaryOf(fewer);
    for (const [x, y] of oval) expect(boundary.distanceMm(x, y)).toBeLessThan(0.05 + 1e-9);
  });

  it("never make an outline meet itself", () => {
    const slit: Outline = [
      [0, 0],
      [10, 0],
      [10, 9.9],
      [5, 1],
      [9.8, 10],
      [0, 10],
    ];
    expect(findCrossing(simplify(slit, 3))).toBeNull();
  });

  it("evenly spaced stand equally far apart along the outline", () => {
    const even = evenlySpaced(
      [
        [0, 0],
        [30, 0],
        [30, 20],
        [0, 20],
      ],
      2.5,
    );
    expect(even).toHaveLength(40);
    expect(even[13]).toEqual([30, 2.5]);
    expect(perimeterMm(even)).toBeCloseTo(100, 9);
  });
});
