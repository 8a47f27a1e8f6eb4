import { v7 as uuidv7 } from "uuid";
import { type Fault, InputError } from "../../domain/fault.ts";
import { type Author, type Entry, kinds } from "../entry/index.ts";
import type { Alongside, Progress, RecordStore } from "../store/index.ts";
import type { BadLine, LogReport } from "./report.ts";

/** Whether rows with faults hold up the whole file, or are left out. */
export type Accept = "all" | "goodOnly";

export interface LogImportOptions {
  clinicId: string;
  personId: string;
  stomaId: string;
  author: Author;
  nowMs: number;
  accept: Accept;
  onProgress?: Progress;
  signal?: AbortSignal;
  /** The cursor up to which the person's record was read when the log was checked; where there is more, none is written. */
  readThrough?: number;
  /** Writes what stands beside these entries, in their transaction. */
  alongside?: Alongside;
}

export interface LogImport {
  imported: number;
  duplicates: number;
  /** Faults of the rows that were left out. */
  left: BadLine[];
}

/** Why a checked log cannot be imported this way; null where it can. */
export function whyNotImport({ problems, badLines }: LogReport, accept: Accept): Fault | null {
  const [whole] = problems;
  if (whole) return { path: "file", problem: whole.text, got: whole.code, expected: "a log of changes" };
  if (accept === "goodOnly" || badLines === 0) return null;
  return {
    path: "file",
    problem: badLines === 1 ? "has 1 row that cannot be read" : `has ${badLines} rows that cannot be read`,
    got: badLines,
    expected: "no such row, or the word to leave them out",
  };
}

/**
 * Writes a checked log into the record, all of it or none.
 * @throws {InputError} where {@link whyNotImport} says so
 * @throws {MovedOnError} where the person's record has moved on since the log was checked
 */
export async function importLog(
  store: RecordStore,
  report: LogReport,
  options: LogImportOptions,
): Promise<LogImport> {
  const fault = whyNotImport(report, options.accept);
  if (fault) throw new InputError([fault]);
  const { clinicId, personId, stomaId, author, nowMs, signal, onProgress } = options;
  const recordedAt = new Date(nowMs).toISOString();
  const entries = report.drafts.map(
    ({ at, body }): Entry<"changed"> => ({
      id: uuidv7(),
      clinicId,
      personId,
      stomaId,
      kind: "changed",
      schemaVersion: kinds.changed.version,
      at,
      recordedAt,
      by: author,
      reportedBy: "a log file",
      body,
    }),
  );
  signal?.throwIfAborted();
  const { readThrough } = options;
  const restsOn = readThrough === undefined ? undefined : { personId, readThrough };
  await store.append(entries, { onProgress, restsOn, alongside: options.alongside?.(entries) });
  const { inFile, inRecord } = report.duplicates;
  return { imported: entries.length, duplicates: inFile + inRecord, left: report.bad };
}
