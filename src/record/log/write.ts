import { toCalendarDateTime, toZoned } from "@internationalized/date";
import Papa from "papaparse";
import { zoned } from "../entry/index.ts";
import type { Change, StomaStory } from "../story/index.ts";
import { logColumns, whatWords, whyWords } from "./columns.ts";

/** A stoma's changes in the columns that an import reads, oldest first; importing them again adds nothing. */
export function writeLog({ changes }: Pick<StomaStory, "changes">, zone: string): string {
  const rows = changes.map((change) => rowOf(change, zone));
  return `${Papa.unparse([[...logColumns], ...rows], { newline: "\r\n" })}\r\n`;
}

function rowOf({ source }: Change, zone: string): string[] {
  const { at, body } = source.entry;
  const { what, why, systemName = "", leakHours = [], lastSoundAt, note = "" } = body;
  const [date, time] = "date" in at ? [at.date, ""] : wallClock(at.instant, zone);
  const lastSound = lastSoundAt ? wallClock(lastSoundAt, zone).join(" ") : "";
  const cells = [
    date,
    time,
    whatWords[what],
    whyWords[why],
    systemName,
    leakHours.join(" "),
    lastSound,
    note,
  ];
  return cells.map(asText);
}

/** A spreadsheet would run a cell that begins like a formula. */
function asText(cell: string): string {
  return /^[=+\-@]/.test(cell) ? `'${cell}` : cell;
}

/** Date and time in the zone; where the clocks ran through the hour twice, with the offset that tells which. */
function wallClock(instant: string, zone: string): [date: string, time: string] {
  const there = zoned(instant, zone);
  const time = `${two(there.hour)}:${two(there.minute)}`;
  const date = `${String(there.year).padStart(4, "0")}-${two(there.month)}-${two(there.day)}`;
  const reading = toCalendarDateTime(there);
  const isOnce = toZoned(reading, zone, "earlier").offset === toZoned(reading, zone, "later").offset;
  return isOnce ? [date, time] : [date, `${time}${offsetText(there.offset)}`];
}

function offsetText(offsetMs: number): string {
  const minutes = Math.abs(offsetMs) / 60_000;
  return `${offsetMs < 0 ? "-" : "+"}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

function two(value: number): string {
  return String(value).padStart(2, "0");
}
