import type { Track } from "../outline/index.ts";
import { segmentGrid } from "./segmentGrid.ts";

/** A place on a closed line: the segment, and the share of its length that lies before it. */
export interface Place {
  segment: number;
  share: number;
}

/**
 * Follows the edge of the region that a line bounds, where the line runs through itself. At a crossing the
 * edge always goes on along the other strand: what lies beyond on the old strand is already inside (outside,
 * for an inward curve). Holes are not visited.
 *
 * @param start a place that lies on the wanted edge
 * @param heading to which side the other strand leaves: right (-1) for outward curves, left (1) for inward
 * @returns null where the walk does not come back after exactly one turn: the caller then takes another way
 */
export function boundaryWalk(line: Track, start: Place, heading: 1 | -1): Track | null {
  const { xs, ys, count } = line;
  const grid = segmentGrid(line);
  const outX: number[] = [];
  const outY: number[] = [];
  let segment = start.segment;
  let from = start.share;
  for (let step = 0; step < 2 * count; step += 1) {
    const meeting = grid.firstCrossing(segment, from, heading);
    const home = step > 0 && segment === start.segment && from <= start.share;
    if (home && (meeting === null || meeting.share >= start.share)) {
      return turnsOnce(outX, outY) ? { xs: outX, ys: outY, count: outX.length } : null;
    }
    if (meeting) {
      pushPlace(outX, outY, meeting.x, meeting.y);
      segment = meeting.other;
      from = meeting.otherShare;
    } else {
      segment = segment + 1 < count ? segment + 1 : 0;
      from = 0;
      pushPlace(outX, outY, xs[segment]!, ys[segment]!);
    }
  }
  return null;
}

/** Points closer than this are one, mm. */
const samePlaceMm = 1e-6;

function pushPlace(outX: number[], outY: number[], x: number, y: number): void {
  const last = outX.length - 1;
  if (last >= 0 && Math.abs(outX[last]! - x) < samePlaceMm && Math.abs(outY[last]! - y) < samePlaceMm) return;
  outX.push(x);
  outY.push(y);
}

/** A closed line that does not cross itself turns through exactly one whole turn. */
function turnsOnce(xs: number[], ys: number[]): boolean {
  const count = xs.length;
  if (count < 3) return false;
  let [dx, dy] = [xs[0]! - xs[count - 1]!, ys[0]! - ys[count - 1]!];
  let turned = 0;
  for (let at = 0; at < count; at += 1) {
    const next = at + 1 < count ? at + 1 : 0;
    const [nextDx, nextDy] = [xs[next]! - xs[at]!, ys[next]! - ys[at]!];
    turned += Math.atan2(dx * nextDy - dy * nextDx, dx * nextDx + dy * nextDy);
    [dx, dy] = [nextDx, nextDy];
  }
  return Math.abs(turned - 2 * Math.PI) < 1e-6;
}
