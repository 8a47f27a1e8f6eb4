import { distanceMm, perimeterMm } from "./polygon.ts";
import type { Outline, Point } from "./shape.ts";

/**
 * Points on the outline at equal distances along it, starting with its first point. What lies between two
 * of them is cut straight: use a step well under the size of what must stay.
 *
 * @param stepMm the distance wanted; the nearest that divides the perimeter is taken, at least 3 points
 */
export function evenlySpaced(outline: Outline, stepMm: number): Outline {
  const perimeter = perimeterMm(outline);
  const count = Math.max(3, Math.round(perimeter / stepMm));
  const step = perimeter / count;
  const points: Point[] = [];
  let done = 0;
  for (let at = 0; at < outline.length; at += 1) {
    const a = outline[at]!;
    const b = outline[at + 1 < outline.length ? at + 1 : 0]!;
    const length = distanceMm(a, b);
    while (points.length < count && points.length * step < done + length) {
      const share = (points.length * step - done) / length;
      points.push([a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]);
    }
    done += length;
  }
  return points;
}
