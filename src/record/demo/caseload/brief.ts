import type { PouchingSystem } from "../../entry/index.ts";
import type { DaysAgo, ReadingScenario, Seal, SizeScenario, WornSystem } from "../scenario.ts";

/** Short ways to write the parts of a scenario. */

export function shrinking(
  startMm: number,
  finalMm: number,
  timeConstantDays: number,
  heightMm: number,
  more: Partial<SizeScenario> = {},
): SizeScenario {
  return { startMm, finalMm, timeConstantDays, heightMm, ...more };
}

export function settledAt(
  lengthMm: number,
  heightMm: number,
  more: Partial<SizeScenario> = {},
): SizeScenario {
  return { startMm: lengthMm, finalMm: lengthMm, timeConstantDays: 20, heightMm, ...more };
}

export function byGuide(
  everyDays: number,
  last: DaysAgo,
  more: Partial<ReadingScenario> = {},
): ReadingScenario {
  return { method: "guide", everyDays, last, ...more };
}

export function byTracing(everyDays: number, last: DaysAgo): ReadingScenario {
  return { method: "tracing", everyDays, last };
}

export function worn(
  system: PouchingSystem,
  since: DaysAgo,
  planDays: number,
  seal: Seal,
  more: Partial<WornSystem> = {},
): WornSystem {
  return { system, since, planDays, seal, ...more };
}

/** Rings an eighth of an inch apart, as the ward's guide has; the clinic's own has one a millimetre. */
export const wardGuide = { stepMm: 3.175 };
