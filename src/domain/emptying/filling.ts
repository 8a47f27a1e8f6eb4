import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { type Clock, quarterMs, type Stretch, stretchesBetween } from "./clock.ts";
import { gammaTail } from "./gammaTail.ts";
import { logNormalOf } from "./mixture.ts";
import type { Possible } from "./posterior.ts";
import { type Days, dayTable, type Volume, volumeOf } from "./rate.ts";

/** How a pouch fills from one emptying on. */
export interface Filling {
  /** Chance that at least this volume, above 0, has come by then; of a time past the end, by the end. */
  chanceBy(ms: number, volumeMl: number): number;
  /** When the chance of that volume reaches `chance`, to half a minute; null where not before the end. */
  reachedAt(volumeMl: number, chance: number): number | null;
}

/** Even chances over which a log-normal volume is averaged. */
const evenChances = Array.from({ length: 15 }, (_, i) => normalQuantile((i + 0.5) / 15, 0, 1));
const toleranceMs = 30_000;

/**
 * Output comes in gushes, as a gamma process round the volume that the rate makes of the time; since it never runs
 * back, the chance of a volume by a time is the chance that this time's output is at least that much.
 */
export function fillingFrom(
  fromMs: number,
  endMs: number,
  posterior: readonly Possible[],
  days: Days,
  clock: Clock,
): Filling {
  const stretches = stretchesBetween(fromMs, endMs, clock);
  const people = posterior.map((possible) => ({ possible, table: dayTable(possible.unknowns) }));
  const chanceBy = (ms: number, volumeMl: number): number => {
    const until = firstOf(stretches, (ms - fromMs) / quarterMs);
    if (until.length === 0) return 0;
    return people.reduce((sum, { possible, table }) => {
      const volume = volumeOf(until, table, possible.unknowns, days);
      return sum + possible.weight * chanceOf(possible, volume, volumeMl);
    }, 0);
  };
  const reachedAt = (volumeMl: number, chance: number): number | null => {
    if (chanceBy(endMs, volumeMl) < chance) return null;
    let [low, high] = [fromMs, endMs];
    while (high - low > toleranceMs) {
      const middle = (low + high) / 2;
      if (chanceBy(middle, volumeMl) < chance) low = middle;
      else high = middle;
    }
    return Math.round(high);
  };
  return { chanceBy, reachedAt };
}

/** The first so many quarters of consecutive stretches. */
function firstOf(stretches: readonly Stretch[], quarters: number): Stretch[] {
  const first: Stretch[] = [];
  let left = quarters;
  for (const { date, from, to } of stretches) {
    if (left <= 0) break;
    first.push({ date, from, to: Math.min(to, from + left) });
    left -= to - from;
  }
  return first;
}

function chanceOf(possible: Possible, volume: Volume, volumeMl: number): number {
  const { mean, sd } = logNormalOf(possible, volume);
  const { gushMl } = possible;
  const chances = evenChances.map((z) => gammaTail(Math.exp(mean + sd * z) / gushMl, volumeMl / gushMl));
  return chances.reduce((a, b) => a + b) / chances.length;
}
