import { addDays, calendarDaysBetween, type PlainDate } from "../../domain/calendar.ts";
import type { Healing, StomaStory } from "../../record/story/index.ts";
import type { CuttingSheet } from "../cutting-sheet/index.ts";

/**
 * The days a sheet states. Days of recovery are left out where the day of surgery is not known to the day; the day
 * the opening stops fitting also where its range is open, or where it lies behind already: then the day to measure
 * again stands alone.
 */
export function daysOf(
  { details }: StomaStory,
  healing: Healing,
  on: PlainDate,
): Pick<CuttingSheet, "dayOfRecovery" | "fitsUntil" | "measureAgainOn"> {
  const due = addDays(healing.clockStartOn, Math.floor(healing.measureAgainOnDay));
  const measureAgainOn = due < on ? on : due;
  if (details.surgeryOn?.precision !== "day") return { measureAgainOn };
  return {
    dayOfRecovery: calendarDaysBetween(healing.clockStartOn, on),
    fitsUntil: fitsUntilOf(healing, on),
    measureAgainOn,
  };
}

function fitsUntilOf({ clockStartOn, fitsUntilDay }: Healing, from: PlainDate): CuttingSheet["fitsUntil"] {
  const { estimate = null, lower80 = null, upper80 = null } = fitsUntilDay ?? {};
  if (estimate === null || lower80 === null || upper80 === null) return undefined;
  const on = addDays(clockStartOn, Math.floor(estimate));
  if (on < from) return undefined;
  return {
    on,
    day: Math.floor(estimate),
    lowerDay: Math.floor(lower80),
    upperDay: Math.floor(upper80),
  };
}
