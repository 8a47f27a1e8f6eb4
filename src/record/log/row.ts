import {
  type At,
  type BodyOf,
  clockAheadMs,
  earliest,
  kinds,
  type PlainDate,
  todayIn,
} from "../entry/index.ts";
import { type LogColumn, meaning, whatWords, whyWords } from "./columns.ts";
import type { BadLine, DateOrder, LogContext, LogDoubt, LogDraft } from "./report.ts";
import { type Moment, readDate, readTime, type ZoneClock } from "./when.ts";

/** What every row of one file is read with. */
export interface RowReader {
  order: DateOrder;
  clock: ZoneClock;
  context: LogContext;
  today: PlainDate;
}

export function rowReader(context: LogContext, order: DateOrder, clock: ZoneClock): RowReader {
  return { order, clock, context, today: todayIn(context.zone, context.nowMs) };
}

/** The cells of a row by their column; absent and empty are the same. */
export type Cells = Partial<Record<LogColumn, string>>;

export interface ReadRow {
  /** Null where a fault was found. */
  draft: LogDraft | null;
  faults: BadLine[];
  doubts: LogDoubt["code"][];
}

/** Reads one row as a change. Every fault is found, never only the first. */
export function readRow(line: number, cells: Cells, reader: RowReader): ReadRow {
  const faults: BadLine[] = [];
  const doubts: LogDoubt["code"][] = [];
  const bad = (column: LogColumn, problem: string, expected: string): null => {
    faults.push({ line, column, problem, got: cells[column] ?? "", expected });
    return null;
  };
  const what = meaning(whatWords, cells.what ?? "") ?? bad("what", ...choice(cells.what, whatWords));
  const why = meaning(whyWords, cells.why ?? "") ?? bad("why", ...choice(cells.why, whyWords));
  const when = readWhen(cells, reader, bad, doubts);
  const lastSoundAt = when && readLastSound(cells["last sound"], when, reader, bad);
  const leakHours = readLeakHours(cells["leak hours"], bad);
  if (!what || !why || !when || faults.length > 0) return { draft: null, faults, doubts: [] };
  const body: BodyOf<"changed"> = {
    what,
    why,
    ...(cells.system ? { systemName: cells.system } : {}),
    ...(leakHours ? { leakHours } : {}),
    ...(lastSoundAt ? { lastSoundAt } : {}),
    ...(cells.note ? { note: cells.note } : {}),
  };
  const tooLong = bodyFaults(body, bad);
  return tooLong
    ? { draft: null, faults, doubts: [] }
    : { draft: { line, at: when.at, body }, faults, doubts };
}

type Bad = (column: LogColumn, problem: string, expected: string) => null;

function choice(
  cell: string | undefined,
  words: Record<string, string>,
): [problem: string, expected: string] {
  return [cell ? "is not one of the words" : "is missing", Object.values(words).join(", ")];
}

interface When {
  date: PlainDate;
  at: At;
  /** Null where no time was written down. */
  ms: number | null;
}

const dateForms: Record<DateOrder, string> = {
  ymd: "a date as 2026-11-25",
  dmy: "a date as 2026-11-25 or 25/11/2026",
  mdy: "a date as 2026-11-25 or 11/25/2026",
};
const timeForm = "a time as 08:05 or 8:05 am";

function readWhen(cells: Cells, reader: RowReader, bad: Bad, doubts: LogDoubt["code"][]): When | null {
  const { order, context, today } = reader;
  if (!cells.date) return bad("date", "is missing", dateForms[order]);
  const date = readDate(cells.date, order);
  if (!date) return bad("date", "is not a date", dateForms[order]);
  const { surgeryOn } = context.stoma.details;
  if (surgeryOn && date < earliest(surgeryOn)) {
    return bad("date", "is before the surgery", `${surgeryOn.date} or later`);
  }
  if (date > today) return bad("date", "lies in the future", `${today} or earlier`);
  if (!cells.time) {
    doubts.push("timeMissing");
    return { date, at: { date, precision: "day" }, ms: null };
  }
  const moment = readMoment(date, cells.time, reader);
  if (!moment) return bad("time", "is not a time", timeForm);
  if (moment.ms > context.nowMs + clockAheadMs) return bad("time", "lies in the future", "now or earlier");
  if (moment.clock === "skipped") doubts.push("timeSkipped");
  if (moment.clock === "repeated") doubts.push("timeRepeated");
  const instant = new Date(moment.ms).toISOString();
  return { date, at: { instant, zone: context.zone }, ms: moment.ms };
}

function readMoment(date: PlainDate, text: string, { clock }: RowReader): Moment | null {
  const time = readTime(text);
  return time && clock.moment(date, time);
}

/** A date and a time, or a time alone on the day of the change. */
function readLastSound(cell: string | undefined, when: When, reader: RowReader, bad: Bad): string | null {
  if (!cell) return null;
  const parts = /^(\d+[-/.]\d+[-/.]\d+)(?:\s+|T)(.+)$/.exec(cell);
  const date = parts ? readDate(parts[1]!, reader.order) : when.date;
  const moment = date && readMoment(date, parts ? parts[2]! : cell, reader);
  if (!moment)
    return bad("last sound", "is not a date and time", `${timeForm}, with a date before it if need be`);
  const latest = when.ms ?? reader.clock.moment(when.date, lastMinute).ms;
  if (moment.ms > latest)
    return bad("last sound", "is after the change", "the time of the change or earlier");
  return new Date(moment.ms).toISOString();
}

const lastMinute = { hour: 23, minute: 59, second: 59, offsetMinutes: null };

function readLeakHours(cell: string | undefined, bad: Bad): number[] | null {
  if (!cell) return null;
  const hours = new Set<number>();
  for (const part of cell.split(/[\s,;]+/).filter(Boolean)) {
    const hour = /^\d{1,2}$/.test(part) ? Number(part) : 0;
    if (hour < 1 || hour > 12)
      return bad("leak hours", "are not clock hours", "hours from 1 to 12, as 3 4 5");
    hours.add(hour);
  }
  return [...hours];
}

const columnOf: Record<string, LogColumn> = { systemName: "system", note: "note" };

/** Whatever the record itself would refuse, such as a note that is too long. */
function bodyFaults(body: BodyOf<"changed">, bad: Bad): boolean {
  const checked = kinds.changed.body.safeParse(body);
  if (checked.success) return false;
  for (const issue of checked.error.issues) {
    const column = columnOf[String(issue.path[0])] ?? "note";
    const most = issue.code === "too_big" ? `at most ${issue.maximum} characters` : issue.message;
    bad(column, issue.code === "too_big" ? "is too long" : "is not valid", most);
  }
  return true;
}
