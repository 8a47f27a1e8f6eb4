import {
  intersection,
  type Outline,
  type Point,
  type Region,
  signedAreaMm2,
  union,
} from "../outline/index.ts";
import { besideLine } from "./distance.ts";
import type { SitingPosture } from "./kinds.ts";
import type { Landmark } from "./landmark.ts";

/** The muscle as one region, as drawn in one posture or for all. */
export function muscleIn(landmarks: readonly Landmark[], posture: SitingPosture | null): Region {
  return landmarks.reduce<Region>(
    (muscle, { kind, shape, posture: seenIn = null }) =>
      kind === "muscle" && seenIn === posture && "area" in shape
        ? union(muscle, [shape.area.map(([x, y]): Point => [x, y])])
        : muscle,
    [],
  );
}

/**
 * The middle of the muscle: on every level the middle share of its width, on each side of the midline by itself.
 *
 * @param share of the width, 0 to 1
 */
export function middleOf(muscle: Region, midline: readonly Point[], share: number): Region {
  return (["right", "left"] as const)
    .flatMap((side) => outerEdges(intersection(muscle, [besideLine(midline, side)])))
    .map((part) => middleBand(part, share))
    .filter((band) => band !== null);
}

/** How far across the muscle a place lies on its level: 0 at the medial edge, 1 at the lateral; null beside it. */
export function shareAcross(muscle: Region, midline: readonly Point[], [x, y]: Point): number | null {
  for (const side of ["right", "left"] as const) {
    for (const part of outerEdges(intersection(muscle, [besideLine(midline, side)]))) {
      const span = spanAt(part, y);
      if (!span || x < span[0] || x > span[1] || span[0] === span[1]) continue;
      const fromLow = (x - span[0]) / (span[1] - span[0]);
      return side === "left" ? fromLow : 1 - fromLow;
    }
  }
  return null;
}

/** Parts without their holes: a hole in the muscle does not move its middle. */
function outerEdges(region: Region): Outline[] {
  return region.filter((part) => signedAreaMm2(part) > 0);
}

/** Between two corners' levels the edges are straight, and so is the middle of them. */
function middleBand(part: Outline, share: number): Outline | null {
  const levels = [...new Set(part.map(([, y]) => y))].sort((a, b) => a - b);
  const rows = levels.flatMap((y) => {
    const span = spanAt(part, y);
    return span ? [{ y, middle: (span[0] + span[1]) / 2, half: ((span[1] - span[0]) * share) / 2 }] : [];
  });
  if (rows.length < 2) return null;
  const up = rows.map(({ y, middle, half }): Point => [middle + half, y]);
  const down = rows.map(({ y, middle, half }): Point => [middle - half, y]).reverse();
  return [...up, ...down];
}

/** Where a level enters and leaves a part, outermost; null where it passes by. */
function spanAt(part: Outline, y: number): [number, number] | null {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  part.forEach(([ax, ay], at) => {
    const [bx, by] = part[(at + 1) % part.length]!;
    if (Math.min(ay, by) > y || Math.max(ay, by) < y) return;
    const crossings = ay === by ? [ax, bx] : [ax + ((y - ay) / (by - ay)) * (bx - ax)];
    low = Math.min(low, ...crossings);
    high = Math.max(high, ...crossings);
  });
  return low <= high ? [low, high] : null;
}
