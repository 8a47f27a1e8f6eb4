import type { Note } from "../../domain/note.ts";
import type { Effective } from "../effective/index.ts";
import type { At, BodyOf } from "../entry/index.ts";
import type { Progress } from "../store/index.ts";
import type { StomaStory } from "../story/index.ts";
import type { LogColumn } from "./columns.ts";

/** What a log is checked against. */
export interface LogContext {
  stoma: StomaStory;
  /** Everything ever written about the person, so that a change that was taken back does not come in again. */
  history: readonly Effective[];
  /** The zone in which the times of the log were lived. */
  zone: string;
  nowMs: number;
}

/** Day, month and year in the order of the file; years first need no asking. */
export const dateOrders = ["dmy", "mdy", "ymd"] as const;
export type DateOrder = (typeof dateOrders)[number];

export interface LogOptions {
  dateOrder?: DateOrder;
  onProgress?: Progress;
  signal?: AbortSignal;
}

/** A change as it would be recorded. */
export interface LogDraft {
  /** Line of the file on which the row begins, counted from 1. */
  line: number;
  at: At;
  body: BodyOf<"changed">;
}

/** One thing wrong with one row. */
export interface BadLine {
  line: number;
  column: LogColumn | null;
  problem: string;
  got: string;
  expected: string;
}

/** Something the nurse should know about rows that are imported all the same. */
export interface LogDoubt {
  code: "timeMissing" | "timeSkipped" | "timeRepeated" | "otherEncoding";
  text: string;
  count: number;
  /** The first of the lines concerned. */
  lines: number[];
}

export interface LogReport {
  /** Rows with something in them, the header left out. */
  rows: number;
  good: number;
  blank: number;
  /** Good rows that say what is said already; they are left out. */
  duplicates: { inFile: number; inRecord: number };
  /** Every fault; a row may have several. */
  bad: BadLine[];
  /** Rows with a fault. */
  badLines: number;
  encoding: Encoding;
  delimiter: Delimiter;
  /** Null where the dates can be read in more than one way. */
  dateOrder: DateOrder | null;
  /** The file's dates must be explained before anything can be imported. */
  needsDateOrder: boolean;
  unknownColumns: string[];
  /** What is wrong with the file as a whole: nothing can be imported. */
  problems: Note[];
  doubts: LogDoubt[];
  /** The first rows as they would be recorded. */
  first: LogDraft[];
  /** Good rows that are not in the record yet. */
  drafts: LogDraft[];
}

export type Encoding = "UTF-8" | "UTF-16" | "Windows-1252" | "mixed";
export type Delimiter = "," | ";" | "tab";
