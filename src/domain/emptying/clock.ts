import { CalendarDateTime, fromAbsolute, parseDate, toZoned } from "@internationalized/date";
import { addDays, type PlainDate } from "../calendar.ts";

/** The day is told in quarters of an hour; the zones of today are whole quarters from one another. */
export const quartersADay = 96;
export const quarterMs = 900_000;
const dayMs = 86_400_000;

/** A stretch of elapsed time in one day of the person's own clock, from and to in quarters since midnight. */
export interface Stretch {
  date: PlainDate;
  from: number;
  to: number;
}

/** The person's clock: which day and quarter of an hour an instant lies in, where they live. */
export interface Clock {
  at(ms: number): { date: PlainDate; quarter: number };
  /** Hours shown since midnight, 0 to below 24. */
  hourAt(ms: number): number;
  /** The first instant at or after `ms` when the clock shows this time, `HH:MM`. */
  next(time: string, ms: number): number;
}

/** @param timeZone an IANA time zone */
export function clockIn(timeZone: string): Clock {
  const offsets = new Map<number, number>();
  const offsetAt = (ms: number): number => {
    const known = offsets.get(ms);
    if (known !== undefined) return known;
    const { offset } = fromAbsolute(ms, timeZone);
    offsets.set(ms, offset);
    return offset;
  };
  /** Asks the zone only on the days on which its clocks change. */
  const localMs = (ms: number): number => {
    const start = Math.floor(ms / dayMs) * dayMs;
    const offset = offsetAt(start);
    const same = offset === offsetAt(start + dayMs);
    return ms + (same ? offset : offsetAt(Math.floor(ms / quarterMs) * quarterMs));
  };
  const sinceMidnightMs = (local: number) => local - Math.floor(local / dayMs) * dayMs;
  const at = (ms: number) => {
    const local = localMs(ms);
    return {
      date: new Date(local).toISOString().slice(0, 10),
      quarter: Math.floor(sinceMidnightMs(local) / quarterMs),
    };
  };
  const hourAt = (ms: number) => sinceMidnightMs(localMs(ms)) / 3_600_000;
  const next = (time: string, ms: number): number => {
    const { date } = at(ms);
    const today = instantOf(date, time, timeZone);
    return today >= ms ? today : instantOf(addDays(date, 1), time, timeZone);
  };
  return { at, hourAt, next };
}

/** The instant of a clock time; one that a clock change skips moves forward, of one shown twice the first. */
function instantOf(date: PlainDate, time: string, timeZone: string): number {
  const { year, month, day } = parseDate(date);
  const [hour, minute] = time.split(":").map(Number) as [number, number];
  return toZoned(new CalendarDateTime(year, month, day, hour, minute), timeZone, "compatible")
    .toDate()
    .getTime();
}

/** Elapsed time cut at the quarters of the clock: 92 a day, or 100, when the clocks change. */
function quartersBetween(fromMs: number, toMs: number, clock: Clock): Stretch[] {
  const stretches: Stretch[] = [];
  for (let ms = fromMs; ms < toMs; ) {
    const startMs = Math.floor(ms / quarterMs) * quarterMs;
    const endMs = Math.min(toMs, startMs + quarterMs);
    const { date, quarter } = clock.at(ms);
    stretches.push({
      date,
      from: quarter + (ms - startMs) / quarterMs,
      to: quarter + (endMs - startMs) / quarterMs,
    });
    ms = endMs;
  }
  return stretches;
}

/** Elapsed time cut where the day or the clocks change, and nowhere else. */
export function stretchesBetween(fromMs: number, toMs: number, clock: Clock): Stretch[] {
  const stretches: Stretch[] = [];
  for (const next of quartersBetween(fromMs, toMs, clock)) {
    const last = stretches.at(-1);
    if (last && last.date === next.date && last.to === next.from) last.to = next.to;
    else stretches.push(next);
  }
  return stretches;
}

/** The clock time `HH:MM` at which a quarter begins; quarters past the last run into the next day. */
export function timeOfQuarter(quarter: number): string {
  const minutes = ((((quarter % quartersADay) + quartersADay) % quartersADay) * 24 * 60) / quartersADay;
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

/** A clock time `HH:MM` in quarters since midnight. */
export function quartersOf(time: string): number {
  const [hour, minute] = time.split(":").map(Number) as [number, number];
  return ((hour * 60 + minute) * quartersADay) / (24 * 60);
}

/** An instant as the person's clock shows it, `HH:MM`, down to the quarter: forecasts know no minutes. */
export function aboutTime(ms: number, clock: Clock): string {
  return timeOfQuarter(clock.at(ms).quarter);
}

function two(value: number): string {
  return String(value).padStart(2, "0");
}
