/**
 * The law of one wear in use: a Weibull lifetime, or the planned change where that comes first.
 * Its chance up to the planned change is a curve; the change itself is a single step of `plannedShare`.
 */
export interface WearLaw {
  shape: number;
  scaleDays: number;
  /** Null: changed only when it fails. */
  plannedDays: number | null;
}

/** Chance that a wear fails within some more days, given that it has lasted to an age. */
function failsWithin({ shape, scaleDays }: WearLaw, ageDays: number, days: number): number {
  return -Math.expm1((ageDays / scaleDays) ** shape - ((ageDays + days) / scaleDays) ** shape);
}

/** A law with its step taken apart: what ends before the planned change, and what reaches it. */
export interface SplitLaw {
  /** Where the step lies, days from now; infinite without a planned change. */
  stepDays: number;
  /** Chance of reaching it. */
  stepShare: number;
  /** Chance of having ended before the step and by a day from now. */
  endedBy: (days: number) => number;
}

/**
 * What is left of a wear that is `ageDays` old. One that is already past its planned change is changed now.
 */
export function remaining(law: WearLaw, ageDays: number): SplitLaw {
  const plan = law.plannedDays ?? Number.POSITIVE_INFINITY;
  if (ageDays >= plan) return { stepDays: 0, stepShare: 1, endedBy: () => 0 };
  const endedBy = (days: number) =>
    days <= 0 ? 0 : failsWithin(law, ageDays, Math.min(days, plan - ageDays));
  return {
    stepDays: plan - ageDays,
    stepShare: plan === Number.POSITIVE_INFINITY ? 0 : 1 - endedBy(plan - ageDays),
    endedBy,
  };
}
