import { calendarDaysBetween, type PlainDate } from "../../../domain/calendar.ts";
import type { At } from "../../../record/entry/index.ts";

type Options = Intl.DateTimeFormatOptions;

/** A calendar date has no zone: it is written as it stands. */
function written(date: PlainDate, options: Options): string {
  return new Intl.DateTimeFormat("en-GB", { ...options, timeZone: "UTC" })
    .format(Date.parse(`${date}T00:00:00Z`))
    .replace(",", "");
}

/** "Wednesday 25 November" */
export function longDay(date: PlainDate): string {
  return written(date, { weekday: "long", day: "numeric", month: "long" });
}

/** "25 November 2026" */
export function fullDay(date: PlainDate): string {
  return written(date, { day: "numeric", month: "long", year: "numeric" });
}

/** "25 Nov" */
export function shortDay(date: PlainDate): string {
  return written(date, { day: "numeric", month: "short" });
}

/** "25 November", with the year only where it is not the one of `today`. */
export function plainDay(date: PlainDate, today: PlainDate): string {
  return date.slice(0, 4) === today.slice(0, 4)
    ? written(date, { day: "numeric", month: "long" })
    : fullDay(date);
}

/** "today", "yesterday" or the date. */
export function nearDay(date: PlainDate, today: PlainDate): string {
  const ago = calendarDaysBetween(date, today);
  if (ago === 0) return "today";
  return ago === 1 ? "yesterday" : plainDay(date, today);
}

/** "08:10", where the clinic is. */
export function timeOfDay(instant: string, zone: string): string {
  return new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", timeZone: zone }).format(
    Date.parse(instant),
  );
}

/** The calendar date of an instant in a zone. */
export function dayIn(zone: string, instant: string | number): PlainDate {
  const parts = new Intl.DateTimeFormat("en-CA", {
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    timeZone: zone,
  });
  return parts.format(new Date(instant));
}

/** "today 08:10", "24 November 18:05", "about 3 May 2019", "May 2019", "2019" */
export function whenWords(at: At, today: PlainDate): string {
  if ("instant" in at)
    return `${nearDay(dayIn(at.zone, at.instant), today)} ${timeOfDay(at.instant, at.zone)}`;
  return roughDay(at, today);
}

/** A date only as exactly as it is known. */
export function roughDay(
  { date, precision }: { date: PlainDate; precision: "day" | "month" | "year" },
  today: PlainDate,
): string {
  if (precision === "year") return date.slice(0, 4);
  if (precision === "month") return written(date, { month: "long", year: "numeric" });
  return nearDay(date, today);
}
