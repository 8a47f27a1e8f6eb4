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
const clockAheadMs = 5 * 60_000;
const oldestAge = 130;
const aboutTheStoma: readonly Kind[] = ["measured", "cut", "fitted", "changed"];

/** Faults that need the rest of the record to be seen: the future, dates out of order, wrong targets. */
export function contradictions(entry: Entry, known: Known): Fault[] {
  return [
    ...timeFaults(entry, known),
    ...surgeryFaults(entry, known),
    ...birthFaults(entry, known),
    ...targetFaults(entry, known),
  ];
}

function timeFaults(entry: Entry, { nowMs, zone }: Known): Fault[] {
  return isFuture(entry.at, nowMs, zone)
    ? [fault("at", "lies in the future", entry.at, "now or earlier")]
    : [];
}

function isFuture(when: At, nowMs: number, zone: string): boolean {
  if ("date" in when) return when.precision === "day" && when.date > todayIn(zone, nowMs);
  return sortMs(when) > nowMs + clockAheadMs;
}

function surgeryFaults(entry: Entry, { surgery, firstUseOn, nowMs, zone }: Known): Fault[] {
  if (entry.kind === "stoma") {
    const made = entry.body.surgeryOn;
    if (!made) return [];
    const path = "body.surgeryOn.date";
    if (earliest(made) > todayIn(zone, nowMs))
      return [fault(path, "lies in the future", made.date, "today or earlier")];
    if (firstUseOn !== undefined && earliest(made) > firstUseOn) {
      return [
        fault(path, "is after the stoma was first measured or fitted", made.date, `${firstUseOn} or earlier`),
      ];
    }
    return [];
  }
  if (!surgery || !aboutTheStoma.includes(entry.kind) || entry.corrects?.as === "retract") return [];
  const on = dateOf(entry.at);
  return on < earliest(surgery) ? [fault("at", "is before the surgery", on, `${surgery.date} or later`)] : [];
}

/** The first day that an approximate date may mean. */
function earliest({ date, precision }: { date: PlainDate; precision: "day" | "month" | "year" }): PlainDate {
  if (precision === "day") return date;
  return precision === "month" ? `${date.slice(0, 7)}-01` : `${date.slice(0, 4)}-01-01`;
}

function birthFaults(entry: Entry, { nowMs, zone }: Known): Fault[] {
  if (entry.kind !== "person" || entry.body.birthDate === undefined) return [];
  const { birthDate } = entry.body;
  const today = todayIn(zone, nowMs);
  if (birthDate > today)
    return [fault("body.birthDate", "lies in the future", birthDate, "today or earlier")];
  const oldest = addDays(today, -Math.round(oldestAge * 365.25));
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
