import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import type { HealingReading } from "../../src/domain/healing/index.ts";
import { defaultProtocol as protocol } from "../../src/domain/protocol/index.ts";

/** A stoma of an invented person: its size across on any day, with the day-to-day wobble left out. */
export interface InventedStoma {
  sizeOn(day: number): number;
  wobbleMm: number;
}

/** Uniform and normal random numbers from a seed. */
export interface Chance {
  between(low: number, high: number): number;
  normal(): number;
  /** Log-normal: two in three within `factor` of the median. */
  around(median: number, factor: number): number;
}

export function chanceFrom(seed: number): Chance {
  const generator = xoroshiro128plus(seed);
  const share = () => Math.min(1 - 1e-12, Math.max(1e-12, uniformFloat64(generator)));
  const normal = () => normalQuantile(share(), 0, 1);
  return {
    between: (low, high) => low + (high - low) * share(),
    normal,
    around: (median, factor) => median * Math.exp(Math.log(factor) * normal()),
  };
}

/**
 * Invented populations. Nobody has published how stomas shrink, so none of these is a finding. `asThePrior` is drawn
 * from the prior itself: there the limits must hold four in five, or the arithmetic is wrong. The others differ
 * from it on purpose, and `twoPhase` does not follow the model at all: two exponentials, one fast and one slow.
 */
export const populations: Record<string, (chance: Chance) => InventedStoma> = {
  asThePrior: (chance) =>
    exponential(
      chance,
      protocol.shrinkMm + protocol.shrinkSpreadMm * chance.normal(),
      chance.around(protocol.timeConstantDays, protocol.timeConstantFactor),
      chance.around(protocol.wobbleMm, protocol.wobbleFactor),
    ),
  middling: (chance) => exponential(chance, chance.around(5, 1.8), chance.around(15, 1.6)),
  littleShrink: (chance) => exponential(chance, chance.around(1.5, 2), chance.around(15, 1.6)),
  fastAndLarge: (chance) => exponential(chance, chance.around(12, 1.4), chance.around(8, 1.4)),
  slow: (chance) => exponential(chance, chance.around(7, 1.6), chance.around(35, 1.3)),
  twoPhase: (chance) => {
    const finalMm = chance.between(22, 38);
    const shrinkMm = chance.around(7, 1.6);
    const [fast, slow] = [chance.around(6, 1.3), chance.around(40, 1.3)];
    const sizeOn = (day: number) =>
      finalMm + shrinkMm * (0.6 * Math.exp(-day / fast) + 0.4 * Math.exp(-day / slow));
    return { sizeOn, wobbleMm: chance.around(0.7, 1.35) };
  },
};

function exponential(
  chance: Chance,
  shrinkMm: number,
  timeConstantDays: number,
  wobbleMm = chance.around(0.7, 1.35),
): InventedStoma {
  const finalMm = chance.between(22, 38);
  const sizeOn = (day: number) => finalMm + shrinkMm * Math.exp(-day / timeConstantDays);
  return { sizeOn, wobbleMm };
}

const STEP_MM = 3.175;
const READING_SD_MM = 0.5;

export type Measuring = "guide" | "tracing";

/** About weekly readings, the first in the first or second week; the last is of a stoma that has risen by `lastRisenMm`. */
export function measured(
  stoma: InventedStoma,
  count: number,
  method: Measuring,
  chance: Chance,
  lastRisenMm = 0,
): HealingReading[] {
  const firstDay = Math.round(chance.between(4.5, 9.5));
  return Array.from({ length: count }, (_, i) => {
    const day = firstDay + 7 * i + (i > 0 && i < count - 1 ? Math.round(chance.between(-1.5, 1.5)) : 0);
    const risenMm = i === count - 1 ? lastRisenMm : 0;
    const noiseMm = stoma.wobbleMm * chance.normal() + READING_SD_MM * chance.normal();
    const sizeMm = stoma.sizeOn(day) + risenMm + noiseMm;
    return method === "guide"
      ? { day, diameterMm: Math.ceil(sizeMm / STEP_MM) * STEP_MM, method, stepMm: STEP_MM }
      : { day, diameterMm: sizeMm, method };
  });
}

/**
 * The first day the opening no longer fits, by the same rules as the computation but searched for in the true sizes:
 * looked back for no earlier than the first reading; from the last reading on where the size moves toward it.
 */
export function trueUnfitDay(
  stoma: InventedStoma,
  openingMm: number,
  maxGapMm: number,
  firstDay: number,
  lastDay: number,
  horizonDay: number,
): number {
  const isTooSmall = (day: number) => stoma.sizeOn(day) > openingMm;
  const isTooLarge = (day: number) => openingMm - stoma.sizeOn(day) > 2 * maxGapMm;
  const fits = (day: number) => !isTooSmall(day) && !isTooLarge(day);
  if (fits(lastDay)) return fits(horizonDay) ? Number.POSITIVE_INFINITY : turn(fits, lastDay, horizonDay);
  const fails = isTooSmall(lastDay) ? isTooSmall : isTooLarge;
  if (!fails(firstDay)) return turn((day) => !fails(day), firstDay, lastDay);
  const isShrinking = stoma.sizeOn(lastDay) < stoma.sizeOn(firstDay);
  return isShrinking === isTooSmall(lastDay) ? lastDay : firstDay;
}

/** The day between two on which what held holds no more. */
function turn(holds: (day: number) => boolean, heldOn: number, brokenOn: number): number {
  for (let step = 0; step < 50; step++) {
    const middle = (heldOn + brokenOn) / 2;
    if (holds(middle)) heldOn = middle;
    else brokenOn = middle;
  }
  return brokenOn;
}
