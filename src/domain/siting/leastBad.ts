import type { Point } from "../outline/index.ts";
import { apartFrom } from "./best.ts";
import { bestKept, canKeep } from "./conflict.ts";
import type { Rule } from "./rules.ts";
import { highestPoint, type SlackMm } from "./search.ts";
import { type Siting, slacksOf, wholeMap } from "./siting.ts";

/** How far a limit that was given up may fall behind the best that was possible for it, so that lesser ones have room. */
const roomMm = 0.1;

/**
 * Up to `count` places where not every rule can be kept, the least bad first, spaced as the protocol asks. Rules are
 * given up in the protocol's order, lowest first and no more than must be; of those given up, the most important is
 * broken as little as the kept ones allow, then the next.
 */
export function leastBadPlaces(siting: Siting, within: readonly SlackMm[], count: number): Point[] {
  const places: Point[] = [];
  while (places.length < count) {
    const next = leastBadPlace(siting, [...within, ...apartFrom(places, siting.protocol.siteApartMm)]);
    if (!next) break;
    places.push(next);
  }
  return places;
}

function leastBadPlace(siting: Siting, within: readonly SlackMm[]): Point | null {
  const classes = [...new Set(siting.rules.map(({ giveUp }) => giveUp))].sort((a, b) => a - b);
  const firstKept = classes.findIndex((_, at) =>
    canKeep(siting, keptFrom(siting.rules, classes[at]!), within),
  );
  const given = firstKept < 0 ? classes : classes.slice(0, firstKept);
  const kept = slacksOf(siting.rules.filter(({ giveUp }) => !given.includes(giveUp)));
  let limits: SlackMm[] = [...within, ...kept];
  let place = bestKept(siting, [], limits)?.at ?? null;
  for (const giveUp of [...given].reverse()) {
    const slacks = slacksOf(siting.rules.filter((rule) => rule.giveUp === giveUp));
    const best = highestPoint({
      cells: [{ ...wholeMap(siting.box, slacks), of: slacks, within: limits }],
      enoughMm: giveUp === given[0] ? undefined : 0,
    });
    if (!best) break;
    place = best.at;
    const heldMm = Math.min(0, best.slackMm) - roomMm;
    limits = [
      ...limits,
      ...slacks.map(
        (slack): SlackMm =>
          (x, y) =>
            slack(x, y) - heldMm,
      ),
    ];
  }
  return place;
}

function keptFrom(rules: readonly Rule[], giveUp: number): Rule[] {
  return rules.filter((rule) => rule.giveUp >= giveUp);
}
