import { findCrossing } from "./crossing.ts";
import { distanceMm } from "./polygon.ts";
import type { Outline, Point } from "./shape.ts";

/**
 * The outline with fewer points, each dropped point within the tolerance of the edge that replaces it. Where
 * that would make the outline meet itself the tolerance is halved until it does not.
 *
 * @returns the outline itself where nothing can go
 */
export function simplify(outline: Outline, toleranceMm: number): Outline {
  for (let tolerance = toleranceMm; tolerance > toleranceMm / 100; tolerance /= 2) {
    const fewer = thinned(outline, tolerance);
    if (fewer.length >= 3 && !findCrossing(fewer)) return fewer;
  }
  return outline;
}

/**
 * One pass round the outline: from a kept point, a cone of directions that pass all points since then within
 * the tolerance narrows until a point falls outside it; the one before is kept.
 *
 * @source Williams 1978, Computer Graphics and Image Processing 8:286
 */
export function thinned(outline: Outline, toleranceMm: number): Outline {
  const kept: Point[] = [outline[0]!];
  let anchor = outline[0]!;
  let last = anchor;
  let reach = 0;
  let axis = 0;
  let [low, high] = [-Math.PI, Math.PI];
  for (const point of [...outline.slice(1), outline[0]!]) {
    let distance = distanceMm(anchor, point);
    let angle = turnFrom(axis, Math.atan2(point[1] - anchor[1], point[0] - anchor[0]));
    if (last !== anchor && (angle < low || angle > high || distance < reach)) {
      kept.push(last);
      anchor = last;
      reach = 0;
      [low, high] = [-Math.PI, Math.PI];
      distance = distanceMm(anchor, point);
      axis = Math.atan2(point[1] - anchor[1], point[0] - anchor[0]);
      angle = 0;
    }
    if (distance > toleranceMm) {
      const half = Math.asin(toleranceMm / distance);
      low = Math.max(low, angle - half);
      high = Math.min(high, angle + half);
      reach = distance;
    }
    last = point;
  }
  return kept;
}

/** The angle measured from an axis, within half a turn either way. */
function turnFrom(axis: number, angle: number): number {
  const turn = angle - axis;
  return turn > Math.PI ? turn - 2 * Math.PI : turn <= -Math.PI ? turn + 2 * Math.PI : turn;
}
