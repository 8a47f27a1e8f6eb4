import { distanceMm } from "./polygon.ts";
import type { Outline, Point } from "./shape.ts";

/** Longest step between points of a curve, mm. */
const stepMm = 0.5;

/**
 * The smooth closed curve through points tapped round a stoma, in their order. Between two points it looks
 * only at the next one on each side, and it forms no loops of its own; points in a wrong order still cross.
 *
 * @param points at least 3, no point twice in a row
 * @source Yuksel, Schaefer and Keyser 2011, Computer-Aided Design 43:747: centripetal Catmull-Rom
 */
export function curveThrough(points: Outline): Outline {
  const count = points.length;
  return points.flatMap((from, at) => {
    const before = points[(at + count - 1) % count]!;
    const to = points[(at + 1) % count]!;
    const after = points[(at + 2) % count]!;
    const steps = Math.max(1, Math.ceil(distanceMm(from, to) / stepMm));
    return Array.from({ length: steps }, (_, step) => onSpan(before, from, to, after, step / steps));
  });
}

/** The pyramid of Barry and Goldman with knots as far apart as the square root of the distance. */
function onSpan(before: Point, from: Point, to: Point, after: Point, share: number): Point {
  const knotFrom = Math.sqrt(distanceMm(before, from));
  const knotTo = knotFrom + Math.sqrt(distanceMm(from, to));
  const knotAfter = knotTo + Math.sqrt(distanceMm(to, after));
  const knot = knotFrom + share * (knotTo - knotFrom);
  const first = mixed(before, from, 0, knotFrom, knot);
  const second = mixed(from, to, knotFrom, knotTo, knot);
  const third = mixed(to, after, knotTo, knotAfter, knot);
  const early = mixed(first, second, 0, knotTo, knot);
  const late = mixed(second, third, knotFrom, knotAfter, knot);
  return mixed(early, late, knotFrom, knotTo, knot);
}

function mixed(a: Point, b: Point, knotA: number, knotB: number, knot: number): Point {
  const share = (knot - knotA) / (knotB - knotA);
  return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])];
}
