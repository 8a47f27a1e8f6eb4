import { parseDate } from "@internationalized/date";
import type { PlainDate } from "../../domain/calendar.ts";

const dayMs = 86_400_000;

/**
 * Calendar days of one time zone and the instants at which they begin. Those are remembered: a list asks for the day
 * of every wear on it, and asking the zone's rules each time is most of what a list costs.
 */
export class ZoneDays {
  private readonly zone: string;
  private readonly starts = new Map<PlainDate, number>();

  constructor(zone: string) {
    this.zone = zone;
  }

  /** The first instant of a day, ms; where a clock change takes midnight away, the one after it. */
  startMs(date: PlainDate): number {
    let start = this.starts.get(date);
    if (start === undefined) {
      start = parseDate(date).toDate(this.zone).getTime();
      this.starts.set(date, start);
    }
    return start;
  }

  /** The day on which an instant fell. No zone is further than a day from UTC. */
  dayOf(ms: number): PlainDate {
    const [before, same, after] = [-dayMs, 0, dayMs].map((shift) => utcDate(ms + shift)) as [
      PlainDate,
      PlainDate,
      PlainDate,
    ];
    if (ms >= this.startMs(after)) return after;
    return ms >= this.startMs(same) ? same : before;
  }
}

function utcDate(ms: number): PlainDate {
  return new Date(ms).toISOString().slice(0, 10);
}

const known = new Map<string, ZoneDays>();

/** The days of a zone, kept for the next list: a few clinics have few zones. */
export function daysIn(zone: string): ZoneDays {
  let days = known.get(zone);
  if (!days) {
    days = new ZoneDays(zone);
    known.set(zone, days);
  }
  return days;
}
