import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import type { WeightedLaw } from "./laws.ts";
import { momentsOf } from "./moments.ts";
import { type Grid, gridFor, manyWears, sums } from "./renewal.ts";
import type { WearLaw } from "./wearLaw.ts";

/** Fine enough for a day's quantile to a hundredth of a day. */
const cells = 24;

/**
 * The days by which a number of wears has been completed with each of some probabilities; null for one that is not
 * reached within the horizon.
 *
 * @param wears how many must be completed; 0 is now
 * @param ps probabilities
 */
export function completionDays(
  laws: readonly WeightedLaw[],
  wears: number,
  ps: readonly number[],
  { currentWearDays, horizonDays }: { currentWearDays: number; horizonDays: number },
): (number | null)[] {
  if (wears <= 0) return ps.map(() => 0);
  const curves = laws.map(({ law, weight }) => ({
    weight,
    chanceBy:
      wears > manyWears
        ? ofMany(law, wears, currentWearDays)
        : ofFew(law, wears, currentWearDays, horizonDays),
  }));
  const chanceBy = (days: number) =>
    curves.reduce((sum, curve) => sum + curve.weight * curve.chanceBy(days), 0);
  return ps.map((p) => (chanceBy(horizonDays) < p ? null : firstDayReaching(chanceBy, p, horizonDays)));
}

/** Far under any chance that is asked about. */
const negligible = 1e-12;

/** P(S_n ≤ t) as a function of t: many wears make a normal law. */
function ofMany(law: WearLaw, wears: number, ageDays: number): (days: number) => number {
  const { meanDays, varianceDays2 } = momentsOf(law);
  const sd = Math.sqrt(wears * varianceDays2);
  const mean = wears * meanDays - Math.min(ageDays, meanDays);
  return (days) => (sd > 0 ? normalCdf(days, mean, sd) : days >= mean ? 1 : 0);
}

/** The same, exactly, on a grid. */
function ofFew(law: WearLaw, wears: number, ageDays: number, horizonDays: number): (days: number) => number {
  // Beyond the last planned change nothing is left to find.
  const reachDays =
    law.plannedDays === null ? horizonDays : Math.min(horizonDays, (wears + 1) * law.plannedDays);
  const grid = gridFor(law, reachDays, cells);
  let n = 0;
  for (const { step, smooth } of sums(law, grid, ageDays)) {
    n += 1;
    // A later sum is reached still less often: so many wears last longer than anybody looks ahead.
    if ((smooth.at(-1) ?? 0) + step.share < negligible) return () => 0;
    if (n < wears) continue;
    return (days) => between(smooth, grid, days) + (days >= step.days - 1e-9 ? step.share : 0);
  }
  throw new Error("the sums never end");
}

function between(smooth: Float64Array, { stepDays, days }: Grid, at: number): number {
  const place = (at - days[0]!) / stepDays;
  if (place <= 0) return at <= 0 ? 0 : smooth[0]! * (at / Math.max(at, days[0]!));
  const from = Math.min(Math.floor(place), smooth.length - 1);
  const to = Math.min(from + 1, smooth.length - 1);
  return smooth[from]! + (place - from) * (smooth[to]! - smooth[from]!);
}

const halvings = 40;

function firstDayReaching(chanceBy: (days: number) => number, p: number, horizonDays: number): number {
  let [low, high] = [0, horizonDays];
  for (let i = 0; i < halvings; i++) {
    const middle = (low + high) / 2;
    if (chanceBy(middle) >= p) high = middle;
    else low = middle;
  }
  return high;
}
