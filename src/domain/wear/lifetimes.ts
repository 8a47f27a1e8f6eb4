import { type RiskTable, riskTableOf, sameDay } from "./riskTable.ts";
import type { EventEnding, Wear } from "./wear.ts";

/** Wears as time-to-event data, sorted once: what the curve, the fits and the comparisons read. */
export interface Lifetimes {
  n: number;
  /** Wears that ended in one of the endings counted as events. */
  failures: number;
  /** Failures seen when they happened, and all censored wears. */
  table: RiskTable;
  /** Failures known only to lie after one look (exclusive) and by the next (inclusive), days. */
  between: { afterDays: Float64Array; byDays: Float64Array };
  /** Longest wear of all, failed or not; 0 when there is none. */
  longestDays: number;
}

/**
 * Sorts wears into failures and censored wears. What is not an event is right-censored: it had not failed
 * by `days`. `foundAfterDays` is read only where the ending is an event.
 * @param event the endings that count as events
 */
export function lifetimesOf(wears: readonly Wear[], event: readonly EventEnding[] = ["leak"]): Lifetimes {
  const events: ReadonlySet<string> = new Set(event);
  const failedAt = new Float64Array(wears.length);
  const censoredAt = new Float64Array(wears.length);
  const afterDays: number[] = [];
  const byDays: number[] = [];
  let failed = 0;
  let censored = 0;
  let longestDays = 0;
  for (const { days, ended, foundAfterDays } of wears) {
    if (days > longestDays) longestDays = days;
    if (!events.has(ended)) censoredAt[censored++] = days;
    else if (foundAfterDays === undefined || sameDay(foundAfterDays, days)) failedAt[failed++] = days;
    else {
      afterDays.push(foundAfterDays);
      byDays.push(days);
    }
  }
  return {
    n: wears.length,
    failures: failed + byDays.length,
    table: riskTableOf(failedAt.subarray(0, failed).sort(), censoredAt.subarray(0, censored).sort()),
    between: { afterDays: Float64Array.from(afterDays), byDays: Float64Array.from(byDays) },
    longestDays,
  };
}
