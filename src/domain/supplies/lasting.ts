import { type Grid, gridFor, sums } from "./renewal.ts";
import type { WearLaw } from "./wearLaw.ts";

/** A law that may hold, and how likely it is to be the one. */
export interface WeightedLaw {
  law: WearLaw;
  weight: number;
}

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
  const curves = laws.map(({ law, weight }) => {
    const grid = gridFor(law, horizonDays, cells);
    return { weight, chanceBy: completedBy(law, grid, wears, currentWearDays) };
  });
  const chanceBy = (days: number) =>
    curves.reduce((sum, curve) => sum + curve.weight * curve.chanceBy(days), 0);
  return ps.map((p) => (chanceBy(horizonDays) < p ? null : firstDayReaching(chanceBy, p, horizonDays)));
}

/** P(S_n ≤ t) as a function of t within the grid. */
function completedBy(law: WearLaw, grid: Grid, wears: number, ageDays: number): (days: number) => number {
  let n = 0;
  for (const { step, smooth } of sums(law, grid, ageDays)) {
    n += 1;
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
