import { distanceMm } from "./polygon.ts";
import type { Outline, Point } from "./shape.ts";

/**
 * The convex hull, counterclockwise from its leftmost point, without points on its straight sides
 * (monotone chain).
 *
 * @source Andrew 1979, Information Processing Letters 9:216
 */
export function convexHull(points: Outline): Outline {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const lower = chain(sorted);
  const upper = chain(sorted.reverse());
  return [...lower.slice(0, -1), ...upper.slice(0, -1)];
}

function chain(sorted: Outline): Point[] {
  const kept: Point[] = [];
  for (const point of sorted) {
    while (kept.length > 1 && cross(kept.at(-2)!, kept.at(-1)!, point) <= 0) kept.pop();
    kept.push(point);
  }
  return kept;
}

/**
 * Calliper widths of a convex polygon that runs counterclockwise: `maxMm` is the greatest distance between
 * two corners, `minMm` the least width between two parallel jaws (one of which lies along an edge).
 *
 * @source Shamos 1978, rotating calipers
 */
export function calliperWidths(hull: Outline): { maxMm: number; minMm: number } {
  const count = hull.length;
  let maxMm = 0;
  let minMm = Number.POSITIVE_INFINITY;
  let far = 1;
  for (let edge = 0; edge < count; edge += 1) {
    const a = hull[edge]!;
    const b = hull[(edge + 1) % count]!;
    while (cross(a, b, hull[(far + 1) % count]!) > cross(a, b, hull[far]!)) far = (far + 1) % count;
    const opposite = hull[far]!;
    const beyond = hull[(far + 1) % count]!;
    maxMm = Math.max(
      maxMm,
      distanceMm(a, opposite),
      distanceMm(b, opposite),
      distanceMm(a, beyond),
      distanceMm(b, beyond),
    );
    minMm = Math.min(minMm, cross(a, b, opposite) / distanceMm(a, b));
  }
  return { maxMm, minMm };
}

function cross(a: Point, b: Point, c: Point): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}
