import { addDays, calendarDaysBetween, type PlainDate } from "../../../../domain/calendar.ts";

/** The stretch of days that the ribbon shows, counted from the start of the healing clock. */
export interface Window {
  fromDay: number;
  toDay: number;
}

export const stretches = ["first", "last", "all"] as const;
export type Stretch = (typeof stretches)[number];

const weeks = 8 * 7;
/** Room after today, so that the next change and the forecast have a place. */
const aheadDays = 14;

/** Eight weeks from surgery for a new stoma; later a choice between those, the last eight and all. */
export function windowOf(stretch: Stretch, nowDay: number): Window {
  const end = Math.ceil(nowDay) + aheadDays;
  if (stretch === "first") return { fromDay: 0, toDay: weeks };
  if (stretch === "last") return { fromDay: end - weeks, toDay: end };
  return { fromDay: 0, toDay: Math.max(weeks, end) };
}

/** Whether there is anything to choose: within the first eight weeks all three are the same. */
export function hasStretches(nowDay: number): boolean {
  return nowDay > weeks - 1;
}

export function usualStretch(nowDay: number): Stretch {
  return hasStretches(nowDay) ? "last" : "first";
}

export interface AxisTick {
  day: number;
  on: PlainDate;
}

/** A tick each week, or as many weeks apart as the room asks. */
export function axisTicks({ fromDay, toDay }: Window, clockStartOn: PlainDate, most: number): AxisTick[] {
  const span = toDay - fromDay;
  const step = [7, 14, 28, 91, 182, 364].find((days) => span / days <= most) ?? 728;
  const first = Math.ceil(fromDay / step) * step;
  const count = Math.floor((toDay - first) / step) + 1;
  return Array.from({ length: count }, (_, index) => {
    const day = first + index * step;
    return { day, on: addDays(clockStartOn, day) };
  });
}

/** Days since the start of the clock of a calendar date. */
export function dayOfDate(date: PlainDate, clockStartOn: PlainDate): number {
  return calendarDaysBetween(clockStartOn, date);
}
