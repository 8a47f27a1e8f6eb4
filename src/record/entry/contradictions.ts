import { addDays, type PlainDate } from "../../domain/calendar.ts";
import type { Fault } from "../../domain/fault.ts";
import { type At, dateOf, sortMs, todayIn } from "./at.ts";
import type { Entry } from "./entry.ts";
import type { Kind } from "./kinds/index.ts";

/** What the record already holds that a new entry must not contradict. */
export interface Known {
  nowMs: number;
  zone: string;
  /** Kind, person and stoma of the entry it corrects; null when that id is unknown. */
  target?: Pick<Entry, "kind" | "personId" | "stomaId"> | null;
  surgery?: { date: PlainDate; precision: "day" | "month" | "year" };
  /** First day on which the stoma was measured, cut for, fitted or changed. */
  firstUseOn?: PlainDate;
}

/** A clock may be a few minutes ahead of the server's without anyone having written down the future. */
export const clockAheadMs = 5 * 60_000;
const oldestAge = 130;
const aboutTheStoma: readonly Kind[] = ["measured", "cut", "fitted", "changed"];

/** Faults that need the rest of the record to be seen: the future, dates out of order, wrong targets. */
export function contradictions(entry: Entry, known: Known): Fault[] {
  // What is taken back counts nowhere, so it contradicts nothing.
  if (entry.corrects?.as === "retract") return targetFaults(entry, known);
  return [
    ...timeFaults(entry, known),
    ...sealFaults(entry),
    ...surgeryFaults(entry, known),
    ...birthFaults(entry, known),
    ...targetFaults(entry, known),
  ];
}

function timeFaults(entry: Entry, { nowMs, zone }: Known): Fault[] {
  if (isFuture(entry.at, nowMs, zone)) {
    return [fault("at", "lies in the future", entry.at, "now or earlier")];
  }
  const oldest = longAgo(nowMs, zone);
  return sortMs(entry.at) < Date.parse(oldest)
    ? [fault("at", "lies too far back", entry.at, `${oldest} or later`)]
    : [];
}

/** Before this day nobody lived whom the record is about. */
function longAgo(nowMs: number, zone: string): PlainDate {
  return addDays(todayIn(zone, nowMs), -Math.round(oldestAge * 365.25));
}

function sealFaults(entry: Entry): Fault[] {
  if (entry.kind !== "changed") return [];
  const { lastSoundAt } = entry.body;
  if (lastSoundAt === undefined || Date.parse(lastSoundAt) <= latestMs(entry.at)) return [];
  return [fault("body.lastSoundAt", "is after the change", lastSoundAt, "the change or earlier")];
}

/** A change known by its day alone may have been at the end of that day, in any zone. */
function latestMs(when: At): number {
  if (!("date" in when)) return sortMs(when);
  return when.precision === "day" ? sortMs(when) + 36 * 3_600_000 : Number.POSITIVE_INFINITY;
}

function isFuture(when: At, nowMs: number, zone: string): boolean {
  if ("date" in when) return earliest(when) > todayIn(zone, nowMs);
  return sortMs(when) > nowMs + clockAheadMs;
}

function surgeryFaults(entry: Entry, { surgery, firstUseOn, nowMs, zone }: Known): Fault[] {
  if (entry.kind === "stoma") {
    const made = entry.body.surgeryOn;
    if (!made) return [];
    const path = "body.surgeryOn.date";
    if (earliest(made) > todayIn(zone, nowMs))
      return [fault(path, "lies in the future", made.date, "today or earlier")];
    const oldest = longAgo(nowMs, zone);
    if (made.date < oldest) return [fault(path, "lies too far back", made.date, `${oldest} or later`)];
    if (firstUseOn !== undefined && earliest(made) > firstUseOn) {
      return [
        fault(path, "is after the stoma was first measured or fitted", made.date, `${firstUseOn} or earlier`),
      ];
    }
    return [];
  }
  if (!surgery || !aboutTheStoma.includes(entry.kind)) return [];
  const on = latest(entry.at);
  return on < earliest(surgery) ? [fault("at", "is before the surgery", on, `${surgery.date} or later`)] : [];
}

/** The first day that an approximate date may mean. */
export function earliest({
  date,
  precision,
}: {
  date: PlainDate;
  precision: "day" | "month" | "year";
}): PlainDate {
  if (precision === "day") return date;
  return precision === "month" ? `${date.slice(0, 7)}-01` : `${date.slice(0, 4)}-01-01`;
}

/** The last day that a time may mean; only for comparing, as a month is taken to have 31 days. */
function latest(when: At): PlainDate {
  if (!("date" in when) || when.precision === "day") return dateOf(when);
  return when.precision === "month" ? `${when.date.slice(0, 7)}-31` : `${when.date.slice(0, 4)}-12-31`;
}

function birthFaults(entry: Entry, { nowMs, zone }: Known): Fault[] {
  if (entry.kind !== "person" || entry.body.birthDate === undefined) return [];
  const { birthDate } = entry.body;
  const today = todayIn(zone, nowMs);
  if (birthDate > today)
    return [fault("body.birthDate", "lies in the future", birthDate, "today or earlier")];
  const oldest = longAgo(nowMs, zone);
  return birthDate < oldest
    ? [fault("body.birthDate", `makes the person older than ${oldestAge}`, birthDate, `${oldest} or later`)]
    : [];
}

function targetFaults(entry: Entry, { target }: Known): Fault[] {
  if (!entry.corrects) return [];
  if (!target)
    return [fault("corrects.id", "names no entry of this record", entry.corrects.id, "the id of an entry")];
  const faults: Fault[] = [];
  for (const key of ["kind", "personId", "stomaId"] as const) {
    if (target[key] === entry[key]) continue;
    faults.push(fault(key, "differs from the entry it corrects", entry[key], String(target[key])));
  }
  return faults;
}

function fault(path: string, problem: string, got: unknown, expected: string): Fault {
  return { path, problem, got, expected };
}
