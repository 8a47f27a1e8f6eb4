import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import type { Protocol } from "../protocol/index.ts";
import { logIntervalProbability } from "./normalInterval.ts";
import { isRing, type Measurement } from "./readings.ts";

/** How far the last size read stands above earlier ones, and which those are. */
export interface Rise {
  fromDay: number;
  untilDay: number;
  onDay: number;
  byMm: number;
}

/** Up to so many readings before the last are also taken together, which shows a smaller rise than each alone. */
const MOST_TOGETHER = 8;

/** Halvings of the golden-section search: a range of some centimetres down to a thousandth of a millimetre. */
const SEARCH_STEPS = 32;
const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * The clearest rise of the last day's size over earlier ones, once the swelling should be easing (after
 * `riseAfterDay`); null where measuring, rings and wobble may explain it. Tested by likelihood ratio: one size for
 * both against a larger last one, as surely as the protocol asks of all comparisons together. A single ring more
 * does not suffice at the default sureness: a size near a ring's edge may slip over it.
 * @source Wilks 1938, Ann. Math. Stat. 9:60; Šidák 1967, J. Am. Stat. Assoc. 62:626, for several comparisons
 */
export function riseOf(measurements: readonly Measurement[], protocol: Protocol): Rise | null {
  const { earlier, last } = comparable(measurements, protocol.riseAfterDay);
  const groups = [
    ...earlier.map((measurement) => [measurement]),
    ...earlier
      .slice(-MOST_TOGETHER)
      .flatMap((_, i, latest) => (i < latest.length - 1 ? [latest.slice(i)] : [])),
  ];
  const sureness = protocol.riseSureness ** (1 / groups.length);
  let clearest: Rise | null = null;
  let mostSure = normalQuantile(sureness, 0, 1);
  for (const group of groups) {
    const byMm = meanMm(last) - meanMm(group);
    const sure = byMm > 0 ? rootLikelihoodRatio(group, last, protocol.wobbleMm) : 0;
    if (sure <= mostSure) continue;
    mostSure = sure;
    clearest = { fromDay: group[0]!.day, untilDay: group.at(-1)!.day, onDay: last[0]!.day, byMm };
  }
  return clearest;
}

/** Whether the last day's ring is larger than an earlier one's; worth a second look, though not a flag. */
export function hasLargerRing(measurements: readonly Measurement[], protocol: Protocol): boolean {
  const { earlier, last } = comparable(measurements, protocol.riseAfterDay);
  return last.some((ring) => isRing(ring) && earlier.some((one) => isRing(one) && ring.upToMm > one.upToMm));
}

/** The last day's measurements, and those before it from the last one up to `afterDay` onwards. */
function comparable(measurements: readonly Measurement[], afterDay: number) {
  const lastDay = measurements.at(-1)!.day;
  if (lastDay <= afterDay) return { earlier: [], last: [] };
  const fromDay = measurements.findLast(({ day }) => day <= afterDay)?.day ?? afterDay;
  return {
    earlier: measurements.filter(({ day }) => day >= fromDay && day < lastDay),
    last: measurements.filter(({ day }) => day === lastDay),
  };
}

/** Standard normal under one common size, as a square root of Wilks' statistic. */
function rootLikelihoodRatio(group: Measurement[], last: Measurement[], wobbleMm: number): number {
  const apart = bestLogLikelihood(group, wobbleMm) + bestLogLikelihood(last, wobbleMm);
  return Math.sqrt(Math.max(0, 2 * (apart - bestLogLikelihood([...group, ...last], wobbleMm))));
}

/** Log likelihood at the single size that explains the measurements best: its log is concave in the size. */
function bestLogLikelihood(measurements: readonly Measurement[], wobbleMm: number): number {
  const at = (sizeMm: number) =>
    measurements.reduce((sum, measurement) => sum + logLikelihood(measurement, sizeMm, wobbleMm), 0);
  let low = Math.min(...measurements.map(({ aboveMm }) => aboveMm));
  let high = Math.max(...measurements.map(({ upToMm }) => upToMm));
  for (let step = 0; step < SEARCH_STEPS; step++) {
    const [left, right] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (at(left) < at(right)) low = left;
    else high = right;
  }
  return at((low + high) / 2);
}

function logLikelihood({ aboveMm, upToMm, sdMm }: Measurement, sizeMm: number, wobbleMm: number): number {
  const errorMm = Math.sqrt(sdMm * sdMm + wobbleMm * wobbleMm);
  if (aboveMm === upToMm) return -0.5 * ((upToMm - sizeMm) / errorMm) ** 2;
  return logIntervalProbability((aboveMm - sizeMm) / errorMm, (upToMm - sizeMm) / errorMm);
}

function meanMm(measurements: readonly Measurement[]): number {
  return measurements.reduce((sum, { upToMm }) => sum + upToMm, 0) / measurements.length;
}
