import type { Protocol } from "../protocol/index.ts";
import type { FitsUntil } from "./result.ts";

/** What calls for measuring at the next planned change, whatever the rhythm. */
export interface MeasureAgainReasons {
  fitsUntilDay: FitsUntil | null;
  /** The size rises, or the opening already fails on the last reading. */
  isWrongNow: boolean;
}

/**
 * The day by which to measure again: weekly through the new-stoma phase and monthly after it, sooner where the lower
 * limit of the fits-until day comes sooner, at the next planned change where something is wrong now. Not asked for
 * sooner than the next planned change, nor than a week once the stoma counts as settled: there, a doubt that comes
 * from the step of the guide would otherwise ask for a measurement at every change for good.
 */
export function measureAgainOn(
  lastDay: number,
  { fitsUntilDay, isWrongNow }: MeasureAgainReasons,
  protocol: Protocol,
): number {
  const isNew = lastDay <= protocol.newStomaDays;
  const rhythmDays = isNew ? protocol.measureEveryDaysNew : protocol.measureEveryDaysSettled;
  const nextChangeDays = Math.min(protocol.measureSoonestDays, rhythmDays);
  if (isWrongNow) return lastDay + nextChangeDays;
  const soonestDays = isNew ? nextChangeDays : Math.min(protocol.measureEveryDaysNew, rhythmDays);
  const lower80 = fitsUntilDay?.lower80 ?? Number.POSITIVE_INFINITY;
  return Math.max(lastDay + soonestDays, Math.min(lastDay + rhythmDays, Math.floor(lower80)));
}
