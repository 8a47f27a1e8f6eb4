import { addDays } from "../calendar.ts";
import type { Note } from "../note.ts";
import { advisedDays, cutFromReading, openingFails } from "./notes.ts";
import type { HealingDates, HealingResult } from "./result.ts";

type AdviceFacts = Pick<HealingResult, "fitsUntilDay" | "measureAgainOnDay" | "rising" | "notes">;

/**
 * The last day for which barriers may be cut ahead with the opening in use: never past the day to measure again
 * (which the cautious limit of the fit has already drawn in), nor past the middle estimate of the fits-until day.
 * Null: cut none ahead, because the opening fails or the size rises.
 */
export function cutAheadUntilDay({
  fitsUntilDay,
  measureAgainOnDay,
  rising,
  notes,
}: AdviceFacts): number | null {
  if (rising || notes.some(({ code }) => openingFails.includes(code))) return null;
  return Math.min(measureAgainOnDay, Math.floor(fitsUntilDay?.estimate ?? measureAgainOnDay));
}

/** Adds what is advised, both days together as neither holds alone, and the calendar dates. */
export function withAdvice<T extends AdviceFacts & { settledOnDay?: number | null }>(
  facts: T,
  surgeryOn: string | undefined,
): T & { dates: HealingDates | null } {
  const advised: Note[] = [advisedDays(facts.measureAgainOnDay, cutAheadUntilDay(facts)), cutFromReading()];
  return {
    ...facts,
    dates: surgeryOn === undefined ? null : datesOf(facts, surgeryOn),
    notes: [...facts.notes, ...advised],
  };
}

/** A day's date is the one it falls on: part days are dropped. */
function datesOf(
  { settledOnDay, fitsUntilDay, measureAgainOnDay }: AdviceFacts & { settledOnDay?: number | null },
  surgeryOn: string,
): HealingDates {
  const on = (day: number | null | undefined) =>
    typeof day === "number" ? addDays(surgeryOn, Math.floor(day)) : null;
  return {
    settledOn: on(settledOnDay),
    fitsUntilOn: on(fitsUntilDay?.estimate),
    measureAgainOn: addDays(surgeryOn, Math.floor(measureAgainOnDay)),
  };
}
