import { CalendarDateTime, fromAbsolute, toZoned } from "@internationalized/date";
import { isPlainDate, type PlainDate } from "../entry/index.ts";
import type { DateOrder } from "./report.ts";

/** A wall clock reading; `offsetMinutes` only where the file states it. */
export interface ClockTime {
  hour: number;
  minute: number;
  second: number;
  offsetMinutes: number | null;
}

/** An instant, and what the clocks did to the time that was written down. */
export interface Moment {
  ms: number;
  clock: "usual" | "skipped" | "repeated";
}

const yearFirst = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/;
const yearLast = /^(\d{1,2})[-/.](\d{1,2})[-/.](\d{4})$/;

/** A date with the year first, or with the year last in the given order; null where it is none. */
export function readDate(text: string, order: DateOrder): PlainDate | null {
  const first = yearFirst.exec(text);
  if (first) return dateFrom(first[1]!, first[2]!, first[3]!);
  const last = order === "ymd" ? null : yearLast.exec(text);
  if (!last) return null;
  const [, a, b, year] = last as unknown as [string, string, string, string];
  return order === "dmy" ? dateFrom(year, b, a) : dateFrom(year, a, b);
}

/** Whether a date needs to be told what comes first. */
export function isYearLast(text: string): boolean {
  return yearLast.test(text);
}

function dateFrom(year: string, month: string, day: string): PlainDate | null {
  const date = `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}`;
  return isPlainDate(date) ? date : null;
}

const offsetEnd = /\s*(?:(Z)|([+-])(\d{2}):?(\d{2}))$/i;
const twelveHours = /^(\d{1,2})(?:[:.](\d{2}))?(?:[:.](\d{2}))?\s*([ap])\.?m\.?$/i;
const fullDay = /^(\d{1,2})[:.h](\d{2})(?:[:.](\d{2}))?$/i;

/** A time as 8:05, 08.05, 8h05, 08:05:30, 8:05 pm or 8 pm, with +01:00 or Z after it if need be; null if none. */
export function readTime(text: string): ClockTime | null {
  const offset = offsetEnd.exec(text);
  const bare = offset ? text.slice(0, offset.index) : text;
  const offsetMinutes = offset ? minutesOf(offset) : null;
  const half = twelveHours.exec(bare);
  if (half) {
    const hour = Number(half[1]);
    if (hour < 1 || hour > 12) return null;
    const afternoon = half[4]!.toLowerCase() === "p" ? 12 : 0;
    return clockTime((hour % 12) + afternoon, half[2], half[3], offsetMinutes);
  }
  const full = fullDay.exec(bare);
  return full ? clockTime(Number(full[1]), full[2], full[3], offsetMinutes) : null;
}

function minutesOf([, utc, sign, hours, minutes]: RegExpExecArray): number {
  return utc ? 0 : (sign === "-" ? -1 : 1) * (Number(hours) * 60 + Number(minutes));
}

function clockTime(
  hour: number,
  minuteText = "0",
  secondText = "0",
  offsetMinutes: number | null = null,
): ClockTime | null {
  const [minute, second] = [Number(minuteText), Number(secondText)];
  return hour < 24 && minute < 60 && second < 60 ? { hour, minute, second, offsetMinutes } : null;
}

const hourMs = 3_600_000;

/** Turns wall clock readings of one zone into instants. Days without a clock change are remembered: it is asked often. */
export class ZoneClock {
  private readonly zone: string;
  private readonly offsets = new Map<PlainDate, number | null>();

  constructor(zone: string) {
    this.zone = zone;
  }

  /**
   * The instant of a date and time. A time that the clocks skipped moves forward by what was skipped; one
   * that they ran through twice is taken as the first.
   */
  moment(date: PlainDate, time: ClockTime): Moment {
    const { hour, minute, second, offsetMinutes } = time;
    const wallMs = Date.parse(`${date}T00:00:00Z`) + ((hour * 60 + minute) * 60 + second) * 1000;
    if (offsetMinutes !== null) return { ms: wallMs - offsetMinutes * 60_000, clock: "usual" };
    const offsetMs = this.steadyOffset(date);
    return offsetMs === null ? this.nearChange(wallMs) : { ms: wallMs - offsetMs, clock: "usual" };
  }

  /** The offset from UTC all through a date; null where it may change. */
  private steadyOffset(date: PlainDate): number | null {
    let known = this.offsets.get(date);
    if (known === undefined) {
      const middayMs = Date.parse(`${date}T12:00:00Z`);
      const [before, after] = [this.offsetAt(middayMs - 36 * hourMs), this.offsetAt(middayMs + 36 * hourMs)];
      known = before === after ? before : null;
      this.offsets.set(date, known);
    }
    return known;
  }

  private offsetAt(ms: number): number {
    return fromAbsolute(ms, this.zone).offset;
  }

  private nearChange(wallMs: number): Moment {
    const wall = new Date(wallMs);
    const reading = new CalendarDateTime(
      wall.getUTCFullYear(),
      wall.getUTCMonth() + 1,
      wall.getUTCDate(),
      wall.getUTCHours(),
      wall.getUTCMinutes(),
      wall.getUTCSeconds(),
    );
    const [earlier, later] = (["earlier", "later"] as const).map((which) =>
      toZoned(reading, this.zone, which).toDate().getTime(),
    ) as [number, number];
    if (earlier === later) return { ms: earlier, clock: "usual" };
    const shown = earlier + this.offsetAt(earlier);
    return shown === wallMs ? { ms: earlier, clock: "repeated" } : { ms: later, clock: "skipped" };
  }
}
