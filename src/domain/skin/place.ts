import {
  centroidMm,
  clockDirection,
  difference,
  distanceMm,
  grown,
  intersection,
  type Outline,
  outlineOf,
  type Point,
  type Region,
} from "../outline/index.ts";

/** Where on the skin something was seen: drawn, or between two clock hours and two distances from the stoma. */
export type SkinPlace =
  | { outline: readonly Point[] }
  | {
      /** Clockwise from one whole hour to another, each with its 15° to either side; 1 to 12 is all round. */
      hours: { from: number; to: number };
      /** From the stoma's edge outward, mm. */
      reachMm: { from: number; to: number };
    };

/**
 * The skin that a place covers; what lies on the stoma itself is left out.
 *
 * @throws InputError where a drawn place is no outline
 */
export function skinRegion(place: SkinPlace, stoma: Outline, path = "place"): Region {
  if ("outline" in place) {
    return difference([outlineOf({ outline: place.outline.map(([x, y]) => [x, y]) }, path)], [stoma]);
  }
  const { hours, reachMm } = place;
  const inner = reachMm.from > 0 ? grown([stoma], reachMm.from) : [stoma];
  const ring = difference(grown([stoma], reachMm.to), inner);
  const count = hoursFrom(hours);
  return count === 12 ? ring : intersection(ring, [wedge(hours.from, count, stoma, reachMm.to)]);
}

/** Hours covered, both ends counted. */
function hoursFrom({ from, to }: { from: number; to: number }): number {
  return ((((to - from) % 12) + 12) % 12) + 1;
}

/** A slice of the clock that reaches beyond the ring everywhere. */
function wedge(from: number, count: number, stoma: Outline, reachMm: number): Outline {
  const centre = centroidMm(stoma);
  const farMm = 2 * (reachMm + Math.max(...stoma.map((point) => distanceMm(centre, point))));
  const halfHours = Array.from({ length: 2 * count + 1 }, (_, at) => from - 0.5 + at / 2);
  const rim = halfHours.map((hour): Point => {
    const [dx, dy] = clockDirection(hour);
    return [centre[0] + farMm * dx, centre[1] + farMm * dy];
  });
  return [centre, ...rim].reverse();
}
