import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boundaryOf } from "./boundary.ts";
import type { Outline, Point } from "./shape.ts";

const square: Outline = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
];

/** A star of 60 points, so that several blocks and bands are in play. */
const star: Outline = Array.from({ length: 60 }, (_, at): Point => {
  const [turn, radius] = [(Math.PI * at) / 30, at % 2 ? 8 : 15];
  return [radius * Math.cos(turn), radius * Math.sin(turn)];
});

const place = fc.tuple(
  fc.double({ min: -25, max: 25, noNaN: true }),
  fc.double({ min: -25, max: 25, noNaN: true }),
);

describe("an outline asked for distances", () => {
  it("gives the signed gap to a square: negative inside", () => {
    const boundary = boundaryOf(square);
    expect(boundary.signedGapMm(5, 3)).toBe(-3);
    expect(boundary.signedGapMm(13, 14)).toBe(5);
    expect(boundary.distanceToLineMm([12, -5], [12, 20])).toBe(2);
    expect(boundary.distanceToLineMm([5, 5], [20, 5])).toBe(0);
  });

  it("gives the same distance as trying every edge", () => {
    const boundary = boundaryOf(star);
    fc.assert(
      fc.property(place, ([x, y]) => {
        const distances = star.map((_, edge) => boundary.distanceToEdgeMm(edge, x, y));
        expect(boundary.distanceMm(x, y)).toBe(Math.min(...distances));
      }),
    );
  });

  it("gives the same least distance to a line as walking along it in small steps", () => {
    const boundary = boundaryOf(star);
    fc.assert(
      fc.property(place, place, (a, b) => {
        const steps = Array.from({ length: 401 }, (_, at) => at / 400);
        const walked = steps.map((s) =>
          boundary.distanceMm(a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])),
        );
        const least = boundary.distanceToLineMm(a, b);
        const step = Math.hypot(b[0] - a[0], b[1] - a[1]) / 400;
        expect(least).toBeLessThanOrEqual(Math.min(...walked) + 1e-9);
        expect(least).toBeGreaterThanOrEqual(Math.min(...walked) - step);
      }),
      { numRuns: 50 },
    );
  });

  it("knows inside from outside as the turns of the outline round the place do", () => {
    const boundary = boundaryOf(star);
    fc.assert(
      fc.property(place, ([x, y]) => {
        if (boundary.distanceMm(x, y) < 1e-6) return;
        const turns = star.reduce((sum, a, at) => {
          const b = star[(at + 1) % star.length]!;
          const [ax, ay, bx, by] = [a[0] - x, a[1] - y, b[0] - x, b[1] - y];
          return sum + Math.atan2(ax * by - ay * bx, ax * bx + ay * by);
        }, 0);
        expect(boundary.contains(x, y)).toBe(turns > Math.PI);
      }),
    );
  });
});
