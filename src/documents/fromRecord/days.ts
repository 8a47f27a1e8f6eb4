import { addDays, calendarDaysBetween, type PlainDate } from "../../domain/calendar.ts";
import type { Healing, StomaStory } from "../../record/story/index.ts";
import type { CuttingSheet } from "../cutting-sheet/index.ts";

/**
 * The days a sheet states. Days of recovery are left out where the day of surgery is not known to the day; the day
 * the opening stops fitting also where it lies behind already: then the day to measure again stands alone.
 */
export function daysOf(
  { details }: StomaStory,
  healing: Healing,
  on: PlainDate,
): Pick<CuttingSheet, "dayOfRecovery" | "fitsUntil" | "fitsAtLeastUntil" | "measureAgainOn"> {
  const due = addDays(healing.clockStartOn, Math.floor(healing.measureAgainOnDay));
  const measureAgainOn = due < on ? on : due;
  if (details.surgeryOn?.precision !== "day") return { measureAgainOn };
  return {
    dayOfRecovery: calendarDaysBetween(healing.clockStartOn, on),
    ...fitsOf(healing, on),
    measureAgainOn,
  };
}

function fitsOf(
  { clockStartOn, fitsUntilDay, notes }: Healing,
  from: PlainDate,
): Pick<CuttingSheet, "fitsUntil" | "fitsAtLeastUntil"> {
  if (!fitsUntilDay) return {};
  const { estimate, upper80 } = fitsUntilDay;
  const lower80 = fitsUntilDay.lower80 ?? horizonDay(notes);
  if (lower80 === null) return {};
  const dated = (days: number) => ({ day: Math.floor(days), on: addDays(clockStartOn, Math.floor(days)) });
  const stated = dated(estimate ?? lower80);
  if (stated.on < from) return {};
  if (estimate === null) return { fitsAtLeastUntil: stated };
  const upperDay = upper80 === null ? undefined : Math.floor(upper80);
  return { fitsUntil: { ...stated, lowerDay: Math.floor(lower80), upperDay } };
}

/** How far the curve was followed: where even the early limit lies beyond it, the opening fits that long. */
function horizonDay(notes: Healing["notes"]): number | null {
  const day = notes.find(({ code }) => code === "beyondHorizon")?.params.horizonDay;
  return typeof day === "number" ? day : null;
}
