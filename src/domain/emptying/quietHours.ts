import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import type { Protocol } from "../protocol/index.ts";
import { quartersADay, quartersOf, timeOfQuarter } from "./clock.ts";
import { type MiddleDay, middleDayOf } from "./course.ts";
import { logNormalOf, meanOf } from "./mixture.ts";
import type { Possible } from "./posterior.ts";
import type { Days, Volume } from "./rate.ts";

/** A time of day at which little comes: room for a change. */
export interface QuietHours {
  /** Clock times `HH:MM`. */
  from: string;
  to: string;
  expectedMl: number;
  /** How sure it is that this time is quieter than the average of the day. */
  sureness: number;
}

const mostNamed = 3;

/**
 * The quietest times while awake, quietest first, never overlapping; only those that are surely enough quieter than
 * the average of the day. Empty where the log cannot tell any.
 */
export function quietHours(
  sleep: { from: string; to: string },
  posterior: readonly Possible[],
  days: Days,
  protocol: Protocol,
): QuietHours[] {
  const length = Math.max(1, Math.round((protocol.changeTakesHours * quartersADay) / 24));
  const people = posterior.map((possible) => {
    const middleDay = middleDayOf(possible, days);
    return { possible, middleDay, wholeDay: middleDay.volume(0, quartersADay) };
  });
  const sure = waking(sleep, length)
    .map((from) => ({ from, ...quietness(from, length, people) }))
    .filter(({ sureness }) => sureness >= protocol.quietSureness)
    .sort((a, b) => a.expectedMl - b.expectedMl);
  const named: typeof sure = [];
  for (const one of sure) {
    if (named.length === mostNamed) break;
    if (named.every(({ from }) => apart(from, one.from) >= length)) named.push(one);
  }
  return named.map(({ from, expectedMl, sureness }) => ({
    from: timeOfQuarter(from),
    to: timeOfQuarter(from + length),
    expectedMl,
    sureness,
  }));
}

/** Quarters at which a stretch of this length begins and ends awake. */
function waking({ from, to }: { from: string; to: string }, length: number): number[] {
  const up = Math.ceil(quartersOf(to));
  const awake = (Math.floor(quartersOf(from)) - up + quartersADay) % quartersADay || quartersADay;
  return Array.from({ length: Math.max(0, awake - length + 1) }, (_, i) => (up + i) % quartersADay);
}

interface Person {
  possible: Possible;
  middleDay: MiddleDay;
  wholeDay: Volume;
}

function quietness(from: number, length: number, people: readonly Person[]) {
  const parts = people.map(({ possible, middleDay, wholeDay }) => {
    const here = middleDay.volume(from, length);
    const { mean, sd } = logNormalOf(possible, ratio(here, wholeDay));
    const volume = logNormalOf(possible, here);
    return {
      volume: { ...volume, mean: volume.mean + possible.dayLogSd ** 2 / 2 },
      sureness: possible.weight * normalCdf(Math.log(length / quartersADay), mean, Math.max(sd, 1e-9)),
    };
  });
  return {
    expectedMl: meanOf(parts.map(({ volume }) => volume)),
    sureness: parts.reduce((sum, part) => sum + part.sureness, 0),
  };
}

/** The share of the day's output that comes in this stretch, as a volume of one "day". */
function ratio(here: Volume, day: Volume): Volume {
  const share = here.ml / day.ml;
  return {
    ml: share,
    slope: here.slope.map((value, k) => share * (value / here.ml - day.slope[k]! / day.ml)),
  };
}

function apart(a: number, b: number): number {
  const distance = Math.abs(a - b) % quartersADay;
  return Math.min(distance, quartersADay - distance);
}
