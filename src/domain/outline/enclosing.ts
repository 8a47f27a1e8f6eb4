import { distanceMm } from "./polygon.ts";
import type { Outline, Point } from "./shape.ts";

export interface Circle {
  centreMm: Point;
  radiusMm: number;
}

/** Points this little outside, as a share of the radius, are on the circle. */
const roundingShare = 1e-10;

/**
 * The smallest circle round a set of points: where a round barrier leaves most on every side.
 *
 * Starts anywhere and takes in the farthest point outside until there is none; two or three points always
 * hold the circle, and it grows with each step, so that no three come back.
 *
 * @source Gärtner 1999, Fast and robust smallest enclosing balls, LNCS 1643:325 (the pivot rule)
 */
export function smallestCircle(points: Outline): Circle {
  let holders: Point[] = [points[0]!];
  let circle: Circle = { centreMm: points[0]!, radiusMm: 0 };
  for (;;) {
    const farthest = farthestFrom(circle.centreMm, points);
    if (reaches(circle, farthest)) return circle;
    const wider = smallestOfFew([farthest, ...holders]);
    if (wider.circle.radiusMm <= circle.radiusMm) return circle;
    ({ circle, holders } = wider);
  }
}

function farthestFrom([x, y]: Point, points: Outline): Point {
  let farthest = points[0]!;
  let squared = -1;
  for (const point of points) {
    const candidate = (point[0] - x) ** 2 + (point[1] - y) ** 2;
    if (candidate > squared) {
      squared = candidate;
      farthest = point;
    }
  }
  return farthest;
}

/** The smallest circle round up to four points, the first of which is known to lie on it. */
function smallestOfFew([first, ...others]: Point[]): { circle: Circle; holders: Point[] } {
  const candidates = others.flatMap((second, at) => [
    { circle: between(first!, second), holders: [first!, second] },
    ...others.slice(at + 1).map((third) => ({
      circle: through(first!, second, third),
      holders: [first!, second, third],
    })),
  ]);
  return candidates
    .filter(({ circle }) => others.every((point) => reaches(circle, point)))
    .reduce((a, b) => (b.circle.radiusMm < a.circle.radiusMm ? b : a));
}

function reaches({ centreMm, radiusMm }: Circle, point: Point): boolean {
  return distanceMm(centreMm, point) <= radiusMm * (1 + roundingShare);
}

function between(a: Point, b: Point): Circle {
  return { centreMm: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], radiusMm: distanceMm(a, b) / 2 };
}

function through(a: Point, b: Point, c: Point): Circle {
  const [bx, by, cx, cy] = [b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]];
  const twice = 2 * (bx * cy - by * cx);
  const [bb, cc] = [bx * bx + by * by, cx * cx + cy * cy];
  const centreMm: Point = [a[0] + (cy * bb - by * cc) / twice, a[1] + (bx * cc - cx * bb) / twice];
  return { centreMm, radiusMm: distanceMm(centreMm, a) };
}
