import type { SurvivalCurve } from "./curve.ts";
import { jumpFunctionalSe } from "./jumpCovariance.ts";

/** Mean leak-free days within the first `tauDays`: the area under the curve up to there. */
export interface RestrictedMean {
  tauDays: number;
  days: number;
  /** Standard error, days; null where it cannot be given. */
  se: number | null;
}

/**
 * Area under the leak-free curve from 0 to tau. A tau beyond the last day carries the last value on.
 * se² = Σ A² d / (n (n - d)), A the area from each failure on to tau.
 * @source Irwin 1949; as R's print.survfit with rmean
 */
export function restrictedMean(curve: SurvivalCurve, tauDays: number): RestrictedMean {
  let days = 0;
  let variance = 0;
  let until = tauDays;
  for (let i = curve.days.length - 1; i >= 0; i--) {
    const from = curve.days[i]!;
    if (from > tauDays) continue;
    days += curve.survival[i]! * (until - from);
    until = from;
    const lasting = curve.atRisk[i]! - curve.events[i]!;
    if (lasting > 0) variance += (days * days * curve.events[i]!) / (curve.atRisk[i]! * lasting);
  }
  days += until;
  return { tauDays, days, se: curve.jumps === undefined ? Math.sqrt(variance) : jumpSe(curve, tauDays) };
}

function jumpSe(curve: SurvivalCurve, tauDays: number): number | null {
  if (!curve.jumps) return null;
  const { days } = curve.jumps;
  return jumpFunctionalSe(
    curve.jumps,
    Array.from(days, (day) => Math.min(day, tauDays)),
  );
}
