import {
  CalendarDate,
  parseAbsolute,
  parseDate,
  toCalendarDate,
  toZoned,
  type ZonedDateTime,
} from "@internationalized/date";
import { z } from "zod";
import type { PlainDate } from "../../domain/calendar.ts";

export const plainDate = z.iso.date();

export const timeZone = z.string().refine(isTimeZone, {
  message: "is not a time zone",
  params: { expected: "an IANA time zone such as Europe/London" },
});

/**
 * When something happened: an instant with the zone it was lived in, or a plain date with the precision
 * to which it is known.
 */
export const at = z.union([
  z.strictObject({ instant: z.iso.datetime(), zone: timeZone }),
  z.strictObject({ date: plainDate, precision: z.enum(["day", "month", "year"]) }),
]);
export type At = z.infer<typeof at>;

function isTimeZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}

/** The calendar date of `when`, in the zone it was lived in. */
export function dateOf(when: At): PlainDate {
  if ("date" in when) return when.date;
  return toCalendarDate(zoned(when.instant, when.zone)).toString();
}

/** A place in time to sort by, ms since 1970. A plain date sorts at noon UTC of that day. */
export function sortMs(when: At): number {
  return "date" in when ? Date.parse(`${when.date}T12:00:00Z`) : Date.parse(when.instant);
}

export function zoned(instant: string, zone: string): ZonedDateTime {
  return toZoned(parseAbsolute(instant, "UTC"), zone);
}

/** Today's date where the clinic is. */
export function todayIn(zone: string, nowMs: number): PlainDate {
  return dateOf({ instant: new Date(nowMs).toISOString(), zone });
}

export function isPlainDate(text: string): boolean {
  return plainDate.safeParse(text).success;
}

/** The instant at a wall-clock date and time in a zone; a time that a clock change skips moves forward. */
export function instantAt(date: PlainDate, hour: number, minute: number, zone: string): string {
  const { year, month, day } = parseDate(date);
  const start = toZoned(new CalendarDate(year, month, day), zone);
  return start.set({ hour, minute }).toAbsoluteString();
}
