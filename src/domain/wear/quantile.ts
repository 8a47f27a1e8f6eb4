import type { Limited } from "./confidence.ts";
import type { SurvivalCurve } from "./curve.ts";

/**
 * The day by which a share `p` of wears has failed, with 95 % limits read off the limits of the curve. Where
 * the curve is flat exactly at 1 - p, the middle of the flat stretch; otherwise the first day at or below
 * it; null where the curve, or a limit of it, never gets there.
 * @source the convention of R's quantile.survfit
 */
export function curveQuantile(curve: SurvivalCurve, p: number): Limited {
  return {
    estimate: dayReaching(curve.days, curve.survival, p),
    lower: dayReaching(curve.days, curve.lower, p),
    upper: dayReaching(curve.days, curve.upper, p),
  };
}

const tolerance = Math.sqrt(Number.EPSILON);

/**
 * Limits need not fall steadily, so the row is that of the smallest failed share that reaches p, first of
 * equals, as R finds it.
 */
function dayReaching(days: Float64Array, survival: Float64Array, p: number): number | null {
  let reached = -1;
  let reachedShare = Number.POSITIVE_INFINITY;
  let passed = -1;
  let passedShare = Number.POSITIVE_INFINITY;
  let last = -1;
  for (let i = 0; i < days.length; i++) {
    const share = 1 - survival[i]!;
    if (Number.isNaN(share)) continue;
    if (last < 0 || survival[i] !== survival[last]) last = i;
    if (share + tolerance >= p && share < reachedShare) {
      reached = i;
      reachedShare = share;
    }
    if (share - tolerance >= p && share < passedShare) {
      passed = i;
      passedShare = share;
    }
  }
  if (reached < 0) return null;
  const endsFlat = last >= 0 && Math.abs(p - (1 - survival[last]!)) < tolerance;
  if (endsFlat) return (days[reached]! + days[days.length - 1]!) / 2;
  return passed < 0 ? null : (days[reached]! + days[passed]!) / 2;
}
