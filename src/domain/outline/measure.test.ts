import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mirror, moved } from "./clock.ts";
import { smallestCircle } from "./enclosing.ts";
import { calliperWidths, convexHull } from "./hull.ts";
import { measureOutline } from "./measure.ts";
import { areaMm2, centroidMm, perimeterMm } from "./polygon.ts";
import { type Outline, outlineOf, type Point } from "./shape.ts";

const oval = outlineOf({ guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg: 0 } });

/** Star-shaped outlines: any radii at evenly spread angles. */
const outlines = fc.array(fc.double({ min: 4, max: 25, noNaN: true }), { minLength: 5, maxLength: 40 }).map(
  (radii): Outline =>
    radii.map((radius, at): Point => {
      const turn = (2 * Math.PI * at) / radii.length;
      return [radius * Math.cos(turn), radius * Math.sin(turn)];
    }),
);

function turned(outline: Outline, angle: number): Outline {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return outline.map(([x, y]): Point => [x * cos - y * sin, x * sin + y * cos]);
}

describe("measuring an outline", () => {
  it("gives an oval of 35 x 25 mm the perimeter of the ellipse", () => {
    // Ramanujan's second formula: 94.9034 mm (arithmetic)
    expect(Math.abs(perimeterMm(oval) - 94.9034)).toBeLessThan(0.01);
  });

  it("gives an upright and a tilted oval the same calliper widths, but not the same length and width", () => {
    const upright = measureOutline({ guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg: 0 } });
    const tilted = measureOutline({ guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg: 45 } });
    expect(tilted.feretMaxMm).toBeCloseTo(upright.feretMaxMm, 9);
    expect(tilted.feretMinMm).toBeCloseTo(upright.feretMinMm, 9);
    expect(upright.lengthMm).toBeCloseTo(35, 9);
    expect(tilted.lengthMm).toBeLessThan(31);
  });

  it("takes an L of two blocks apart by hand: area, centroid, hull", () => {
    const outline: Outline = [
      [0, 0],
      [20, 0],
      [20, 10],
      [10, 10],
      [10, 20],
      [0, 20],
    ];
    const measures = measureOutline({ outline });
    expect(measures.areaMm2).toBe(300);
    expect(measures.perimeterMm).toBe(80);
    expect(measures.centroidMm[0]).toBeCloseTo((200 * 10 + 100 * 5) / 300, 12);
    expect(measures.convexHullAreaMm2).toBe(350);
    expect(measures.feretMaxMm).toBeCloseTo(Math.hypot(20, 20), 12);
  });

  it("does not lose digits far from the origin", () => {
    const far = moved(oval, [1e6, -1e6]);
    expect(areaMm2(far)).toBeCloseTo(areaMm2(oval), 6);
    expect(centroidMm(far)[0] - 1e6).toBeCloseTo(centroidMm(oval)[0], 6);
  });

  it("does not depend on where the outline lies, how it is turned, or which face is looked at", () => {
    fc.assert(
      fc.property(
        outlines,
        fc.double({ min: 0, max: 6.3, noNaN: true }),
        fc.double({ min: -50, max: 50, noNaN: true }),
        (outline, angle, shift) => {
          const here = measureOutline({ outline });
          for (const there of [moved(turned(outline, angle), [shift, -shift]), mirror(outline)]) {
            const measures = measureOutline({ outline: there });
            expect(measures.areaMm2).toBeCloseTo(here.areaMm2, 8);
            expect(measures.perimeterMm).toBeCloseTo(here.perimeterMm, 8);
            expect(measures.convexHullAreaMm2).toBeCloseTo(here.convexHullAreaMm2, 8);
            expect(measures.feretMaxMm).toBeCloseTo(here.feretMaxMm, 8);
            expect(measures.feretMinMm).toBeCloseTo(here.feretMinMm, 8);
          }
        },
      ),
    );
  });

  it("finds the same calliper widths as trying every pair of corners and every edge", () => {
    fc.assert(
      fc.property(outlines, (outline) => {
        const hull = convexHull(outline);
        const { maxMm, minMm } = calliperWidths(hull);
        const spans = hull.flatMap((a) => hull.map((b) => Math.hypot(a[0] - b[0], a[1] - b[1])));
        const widths = hull.map((a, at) => {
          const b = hull[(at + 1) % hull.length]!;
          const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
          const heights = hull.map(
            (c) => ((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / length,
          );
          return Math.max(...heights);
        });
        expect(maxMm).toBeCloseTo(Math.max(...spans), 9);
        expect(minMm).toBeCloseTo(Math.min(...widths), 9);
      }),
    );
  });
});

describe("the smallest circle round an outline", () => {
  it("stands on the two ends of an oval", () => {
    const { centreMm, radiusMm } = smallestCircle(oval);
    expect(radiusMm).toBeCloseTo(17.5, 9);
    expect(Math.hypot(...centreMm)).toBeLessThan(1e-9);
  });

  it("holds every point, and no circle through two or three of the points is smaller and holds them all", () => {
    fc.assert(
      fc.property(outlines, (outline) => {
        const { centreMm, radiusMm } = smallestCircle(outline);
        const reaches = outline.map(([x, y]) => Math.hypot(x - centreMm[0], y - centreMm[1]));
        expect(Math.max(...reaches)).toBeLessThan(radiusMm * (1 + 1e-9));
        // At the optimum the points on the circle do not all fit into less than half of it.
        const angles = outline
          .filter((_, at) => reaches[at]! > radiusMm * (1 - 1e-9))
          .map(([x, y]) => Math.atan2(y - centreMm[1], x - centreMm[0]))
          .sort((a, b) => a - b);
        const gaps = angles.map((angle, at) => (angles[at + 1] ?? angles[0]! + 2 * Math.PI) - angle);
        expect(Math.max(...gaps)).toBeLessThan(Math.PI + 1e-6);
      }),
    );
  });
});
