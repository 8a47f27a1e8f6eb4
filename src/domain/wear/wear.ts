/** How a wear (the life of one barrier on the skin) ended, or that it is still on. */
export const endings = ["leak", "underBarrier", "sealTrouble", "planned", "other", "stillOn"] as const;
export type Ending = (typeof endings)[number];

/** What may be counted as an event: a wear that is still on has not ended. */
export const eventEndings = ["leak", "underBarrier", "sealTrouble", "planned", "other"] as const;
export type EventEnding = (typeof eventEndings)[number];

/**
 * The seal gave way: output past the edge, output found under the barrier, or itching, burning or lifting
 * that made somebody take the barrier off. For a change interval all three count, because the last two are
 * leaks that somebody was in time for.
 */
export const sealFailures = ["leak", "underBarrier", "sealTrouble"] as const satisfies EventEnding[];
export type SealFailure = (typeof sealFailures)[number];

/** One barrier's life. */
export interface Wear {
  /** Days from putting on to the end, or to now while it is still on. */
  days: number;
  ended: Ending;
  /** The failure happened after this many days and by `days`: between two looks. */
  foundAfterDays?: number;
  /** What to compare by: a pouching system, a place, a period. */
  group?: string;
}
