import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  areaMm2,
  boundaryOf,
  dimensionsOf,
  findCrossing,
  grown,
  largestPart,
  type Outline,
  outlineOf,
  type Point,
  perimeterMm,
  signedAreaMm2,
} from "../outline/index.ts";
import { parallelCurve } from "./parallel.ts";

const length = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Lobed stomas with the jitter of a hand: lobes, depth, size and the radius of every point differ. */
const stomas = fc
  .record({
    points: fc.integer({ min: 8, max: 160 }),
    lobes: fc.integer({ min: 1, max: 6 }),
    sizeMm: length(5, 20),
    depth: length(0, 0.5),
    jitterMm: fc.array(length(-0.2, 0.2), { minLength: 160, maxLength: 160 }),
  })
  .map(
    ({ points, lobes, sizeMm, depth, jitterMm }): Outline =>
      Array.from({ length: points }, (_, at): Point => {
        const turn = (2 * Math.PI * at) / points;
        const radius = sizeMm * (1 + depth * Math.cos(lobes * turn)) + jitterMm[at]!;
        return [radius * Math.cos(turn), radius * Math.sin(turn)];
      }),
  );

const ovals = fc
  .record({ lengthMm: length(8, 60), widthMm: length(6, 40), tiltDeg: length(-90, 90) })
  .map((guide) => outlineOf({ guide: { shape: "oval", ...guide } }));

/** The greatest distance from a point of either line to the other. */
function apartMm(a: Outline, b: Outline): number {
  const [toA, toB] = [boundaryOf(a), boundaryOf(b)];
  return Math.max(
    ...a.map((point) => toB.distanceMm(...point)),
    ...b.map((point) => toA.distanceMm(...point)),
  );
}

describe("the parallel curve", () => {
  it("of a ring of 28 mm at 1.6 mm is a ring of 31.2 mm", () => {
    const ring = outlineOf({ guide: { shape: "round", diameterMm: 28 } });
    expect(dimensionsOf(parallelCurve(ring, 1.6)!).feretMaxMm).toBeCloseTo(31.2, 2);
  });

  it("grows the area of a convex outline by perimeter x gap + pi x gap squared", () => {
    // Steiner's formula
    fc.assert(
      fc.property(ovals, length(0.1, 6), (oval, gapMm) => {
        const expected = areaMm2(oval) + perimeterMm(oval) * gapMm + Math.PI * gapMm ** 2;
        expect(Math.abs(areaMm2(parallelCurve(oval, gapMm)!) / expected - 1)).toBeLessThan(2e-5);
      }),
    );
  });

  it("taken twice is the curve at the sum of both gaps", () => {
    fc.assert(
      fc.property(ovals, length(0.1, 3), length(0.1, 3), (oval, first, second) => {
        const twice = parallelCurve(parallelCurve(oval, first)!, second)!;
        expect(apartMm(twice, parallelCurve(oval, first + second)!)).toBeLessThan(0.003);
      }),
      { numRuns: 30 },
    );
  });

  it("lies everywhere at its gap from the stoma, never nearer, and never meets itself", () => {
    fc.assert(
      fc.property(stomas, length(0.1, 6), (stoma, gapMm) => {
        fc.pre(findCrossing(stoma) === null);
        const curve = parallelCurve(stoma, gapMm)!;
        const toStoma = boundaryOf(stoma);
        for (const [x, y] of curve) {
          const distance = toStoma.signedGapMm(x, y);
          expect(distance).toBeGreaterThan(gapMm - 1e-6);
          expect(distance).toBeLessThan(gapMm + 0.001);
        }
        expect(findCrossing(curve)).toBeNull();
        expect(signedAreaMm2(curve)).toBeGreaterThan(areaMm2(stoma));
      }),
    );
  });

  it("lies within 0.01 mm of the offset by a general polygon library, outward and inward", () => {
    fc.assert(
      fc.property(stomas, length(-4, 6), (stoma, gapMm) => {
        fc.pre(findCrossing(stoma) === null && Math.abs(gapMm) > 0.01);
        const parts = grown([stoma], gapMm).filter((part) => signedAreaMm2(part) > 0);
        const curve = parallelCurve(stoma, gapMm);
        // Where it falls apart either way may keep another part; where next to nothing is left, either may see it.
        fc.pre(parts.length === 1 && areaMm2(parts[0]!) > 0.1);
        expect(apartMm(curve!, parts[0]!)).toBeLessThan(0.01);
      }),
    );
  });

  it("fills a slot that is narrower than two gaps, and one exactly as wide", () => {
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
    const inSlot = (gapMm: number) => boundaryOf(parallelCurve(slot, gapMm)!).contains(12, 17.9);
    expect([1.9, 2, 2.1].map(inSlot)).toEqual([false, true, true]);
  });

  it("of a stoma bent into a ring with a mouth gives the outer edge alone once the mouth is closed", () => {
    const bent: Outline = [
      [0, 0],
      [20, 0],
      [20, 20],
      [11, 20],
      [11, 17],
      [17, 17],
      [17, 3],
      [3, 3],
      [3, 17],
      [9, 17],
      [9, 20],
      [0, 20],
    ];
    const curve = parallelCurve(bent, 1.5)!;
    expect(areaMm2(curve)).toBeGreaterThan(500);
    expect(grown([bent], 1.5)).toHaveLength(2);
    expect(apartMm(curve, largestPart(grown([bent], 1.5))!)).toBeLessThan(0.01);
  });

  it("inward is null where nothing is left, and the outline itself at 0", () => {
    const ring = outlineOf({ guide: { shape: "round", diameterMm: 10 } });
    expect(parallelCurve(ring, -6)).toBeNull();
    expect(parallelCurve(ring, 0)).toBe(ring);
    expect(dimensionsOf(parallelCurve(ring, -2)!).feretMaxMm).toBeCloseTo(6, 2);
  });
});
