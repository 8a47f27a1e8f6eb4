import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  areaMm2,
  boundaryOf,
  difference,
  evenlySpaced,
  findCrossing,
  grown,
  type Outline,
  outlineOf,
  type Point,
} from "../outline/index.ts";
import { parallelCurve } from "./parallel.ts";
import { scissorPathFor } from "./scissors.ts";

const scissorsMm = 3;
const rectangle: Outline = [
  [0, 0],
  [30, 0],
  [30, 20],
  [0, 20],
];
const slot: Outline = [
  [0, 0],
  [24, 0],
  [24, 18],
  [14, 18],
  [14, 6],
  [10, 6],
  [10, 18],
  [0, 18],
];
const infantsOval = outlineOf({ guide: { shape: "oval", lengthMm: 10, widthMm: 6, tiltDeg: 0 } });

const pathAt = (stoma: Outline, gapMm: number, radiusMm = scissorsMm) =>
  scissorPathFor(parallelCurve(stoma, gapMm)!, stoma, radiusMm);

/** The smallest circle through three points of the path half a millimetre apart. */
function tightestMm(path: Outline): number {
  const points = evenlySpaced(path, 0.5);
  const radii = points.map((b, at) => {
    const [a, c] = [points.at(at - 1)!, points[(at + 1) % points.length]!];
    const cross = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
    const side = (p: Point, q: Point) => Math.hypot(q[0] - p[0], q[1] - p[1]);
    return (side(a, b) * side(b, c) * side(a, c)) / (2 * Math.abs(cross));
  });
  return Math.min(...radii);
}

const areaOf = (region: readonly Outline[]) => region.reduce((sum, part) => sum + areaMm2(part), 0);

/** What a disc of this radius cannot reach, rolled inside and outside the path. */
function unreachedMm2(path: Outline, radiusMm: number): number {
  const inside = areaMm2(path) - areaOf(grown(grown([path], -radiusMm), radiusMm));
  const outside = areaOf(grown(grown([path], radiusMm), -radiusMm)) - areaMm2(path);
  return Math.max(inside, outside);
}

const insideStomaMm2 = (stoma: Outline, path: Outline) => areaOf(difference([stoma], [path]));

const lobed = (lobes: number, depthMm: number, jitterMm: readonly number[]): Outline =>
  jitterMm.map((jitter, at): Point => {
    const turn = (2 * Math.PI * at) / jitterMm.length;
    const radius = 14 + depthMm * Math.cos(lobes * turn) + jitter;
    return [radius * Math.cos(turn), radius * Math.sin(turn)];
  });

describe("the path for scissors", () => {
  it("is the opening itself where that is nowhere tighter than the scissors", () => {
    const ring = outlineOf({ guide: { shape: "round", diameterMm: 28 } });
    const opening = parallelCurve(ring, 2)!;
    expect(scissorPathFor(opening, ring, scissorsMm).path).toBe(opening);
  });

  it("turns no corner of a square-cut stoma tighter than 3 mm", () => {
    const { path, tightAt } = pathAt(rectangle, 2);
    expect(tightAt).toEqual([]);
    expect(tightestMm(path)).toBeGreaterThan(scissorsMm);
    expect(unreachedMm2(path, 2.95)).toBeLessThan(0.05);
    expect(insideStomaMm2(rectangle, path)).toBe(0);
  });

  it("shows what the measure of roundness is worth: the unrounded opening turns at 2 mm", () => {
    const opening = parallelCurve(rectangle, 2)!;
    expect(tightestMm(opening)).toBeLessThan(2.05);
    expect(unreachedMm2(opening, 2.95)).toBeGreaterThan(2);
  });

  it("fills the inward corners of a slot with curves of 3 mm", () => {
    const { path } = pathAt(slot, 1);
    expect(tightestMm(path)).toBeGreaterThan(scissorsMm);
    expect(boundaryOf(path).contains(12, 15)).toBe(true);
    expect(insideStomaMm2(slot, path)).toBe(0);
  });

  it("opens an infant's oval of 10 x 6 mm at 0.5 mm with curves of 3 mm, though its ends are 1.8 mm", () => {
    const { path, tightAt } = pathAt(infantsOval, 0.5);
    expect(tightAt).toEqual([]);
    expect(tightestMm(path)).toBeGreaterThan(scissorsMm);
    expect(insideStomaMm2(infantsOval, path)).toBe(0);
  });

  it("leaves the ends of that oval at 1.8 mm where no gap is wanted, and says where", () => {
    const { path, tightAt } = pathAt(infantsOval, 0);
    expect(insideStomaMm2(infantsOval, path)).toBe(0);
    expect(areaMm2(path) - areaMm2(infantsOval)).toBeLessThan(0.3);
    expect(tightestMm(path)).toBeGreaterThan(1.65);
    expect(tightAt.length).toBeGreaterThan(0);
    for (const [x, y] of tightAt) expect(Math.abs(y)).toBeGreaterThan(Math.abs(x));
  });

  it("keeps a corner that rounding would take into the stoma, and rounds the others", () => {
    // One corner is sharp and the gap small; the three others are cut off beforehand.
    const stoma: Outline = [
      [0, 0],
      [22, 0],
      [28, 6],
      [28, 14],
      [22, 20],
      [6, 20],
      [0, 14],
    ];
    const { path, tightAt } = pathAt(stoma, 0.5);
    expect(insideStomaMm2(stoma, path)).toBe(0);
    expect(tightAt.length).toBeGreaterThan(0);
    for (const [x, y] of tightAt) expect(Math.hypot(x, y)).toBeLessThan(2);
  });

  it("follows the radius that is asked for", () => {
    expect(tightestMm(pathAt(rectangle, 3, 5).path)).toBeGreaterThan(5);
    expect(pathAt(rectangle, 2, 0).path).toEqual(parallelCurve(rectangle, 2));
  });

  it("is for any drawn stoma at 2 mm nowhere tighter than 3 mm, nowhere inside the stoma, and simple", () => {
    const jitter = fc.array(fc.double({ min: -0.15, max: 0.15, noNaN: true }), {
      minLength: 60,
      maxLength: 220,
    });
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 6 }),
        fc.double({ min: 0, max: 3, noNaN: true }),
        jitter,
        (lobes, depthMm, jitterMm) => {
          const stoma = lobed(lobes, depthMm, jitterMm);
          fc.pre(findCrossing(stoma) === null);
          const { path, tightAt } = pathAt(stoma, 2);
          expect(tightAt).toEqual([]);
          expect(findCrossing(path)).toBeNull();
          expect(insideStomaMm2(stoma, path)).toBe(0);
          expect(tightestMm(path)).toBeGreaterThan(2.95);
          expect(unreachedMm2(path, 2.9)).toBeLessThan(0.1);
        },
      ),
      { numRuns: 40 },
    );
  });
});
