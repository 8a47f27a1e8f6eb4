import { parseDate } from "@internationalized/date";

/** A calendar date as `2026-11-25`, with no time and no zone. */
export type PlainDate = string;

/** Calendar days from `from` to `to`; not elapsed time: a 23-hour day counts as one. */
export function calendarDaysBetween(from: PlainDate, to: PlainDate): number {
  return (Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000;
}

export function addDays(date: PlainDate, days: number): PlainDate {
  return parseDate(date).add({ days }).toString();
}
