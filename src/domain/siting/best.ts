import type { Point } from "../outline/index.ts";
import { insideQuadrant } from "./quadrant.ts";
import type { Rule } from "./rules.ts";
import { type Cell, type HighestPoint, highestPoint, type SlackMm } from "./search.ts";
import { insideRegion, type Siting, slacksOf } from "./siting.ts";

/** Places whose clearance differs by less than this are equals, and the second thought decides. */
const equalWithinMm = 0.1;

/** Rules that say where in the muscle to be: mid-muscle covers them, so they do not decide between equals. */
const inMuscleKinds: readonly Rule["kind"][] = ["midline", "muscle"];

/**
 * Up to `count` places that keep every rule, the best first, each at least the protocol's distance from better ones:
 * from the first quadrant that has one; in the middle of the muscle where that is possible; there with the largest
 * clearance, which is the smallest slack over all rules; and among equals farthest from everything but midline and
 * muscle's edge.
 */
export function bestPlaces(siting: Siting, count: number): Point[] {
  const places: Point[] = [];
  while (places.length < count) {
    const next = nextPlace(siting, places);
    if (!next) break;
    places.push(next);
  }
  return places;
}

function nextPlace(siting: Siting, taken: readonly Point[]): Point | null {
  const apart = apartFrom(taken, siting.protocol.siteApartMm);
  for (const quadrant of siting.quadrants) {
    const place = bestIn(siting, [...insideQuadrant(siting, quadrant), ...apart]);
    if (place) return place;
  }
  return null;
}

/** The best place of a part of the map; null where none keeps every rule. */
export function bestIn(siting: Siting, within: readonly SlackMm[]): Point | null {
  const middle = siting.middle.length > 0 ? [insideRegion(siting.middle)] : [];
  const inMiddle = middle.length > 0 ? bestOf(siting, [...within, ...middle]) : null;
  return inMiddle ?? bestOf(siting, within);
}

function bestOf(siting: Siting, within: readonly SlackMm[]): Point | null {
  const largest = largestClearance(siting, within);
  if (!largest) return null;
  const others = slacksOf(siting.rules.filter(({ kind }) => !inMuscleKinds.includes(kind)));
  const enoughMm = Math.max(0, largest.slackMm - equalWithinMm);
  const equals = siting.cells.map(
    (cell): Cell => ({
      ...cell,
      of: others,
      within: [
        ...within,
        ...cell.of.map(
          (slack): SlackMm =>
            (x, y) =>
              slack(x, y) - enoughMm,
        ),
      ],
    }),
  );
  return highestPoint({ cells: equals })?.at ?? largest.at;
}

/** Where the smallest slack over all rules is largest: the region's pole of inaccessibility; null where it is empty. */
export function largestClearance({ cells }: Siting, within: readonly SlackMm[] = []): HighestPoint | null {
  return highestPoint({ cells: cells.map((cell) => ({ ...cell, within })), leastMm: 0 });
}

/** Slacks of staying away from places already taken. */
export function apartFrom(taken: readonly Point[], apartMm: number): SlackMm[] {
  return taken.map(
    ([px, py]): SlackMm =>
      (x, y) =>
        Math.hypot(x - px, y - py) - apartMm,
  );
}
