import type { Fault } from "../../domain/fault.ts";
import { checkEntry, type Entry } from "../entry/index.ts";
import { type Alongside, ConflictError, type Progress, type RecordStore } from "../store/index.ts";
import { parseLine, readHeader } from "./format.ts";
import { References } from "./references.ts";

export interface RecordImport {
  /** Lines with an entry, good or bad. */
  read: number;
  added: number;
  /** Entries that the record had already, with the same content. */
  alreadyThere: number;
  bad: BadRecordLine[];
  /** False: something is wrong and nothing was written. */
  done: boolean;
}

export interface BadRecordLine {
  /** Line of the file, counted from 1. */
  line: number;
  faults: Fault[];
}

export interface RecordImportOptions {
  /** Write the good lines although others are bad. */
  keepGood?: boolean;
  onProgress?: Progress;
  signal?: AbortSignal;
  /** Writes what stands beside these entries, in their transaction. */
  alongside?: Alongside;
}

/** Lines between two looks at the caller's signal. */
const linesALook = 500;

/**
 * Reads an exported record into a store: every line is checked, and either all of them are written or none,
 * unless the good ones are to be kept. Reading a file again adds nothing.
 * @param lines lines of the file, with or without their line ends; the whole file is held in memory
 */
export async function importRecord(
  lines: AsyncIterable<string> | Iterable<string>,
  store: RecordStore,
  { keepGood = false, onProgress, signal, alongside }: RecordImportOptions = {},
): Promise<RecordImport> {
  const { entries, bad, read } = await readFile(lines, store, { onProgress, signal });
  const result: RecordImport = { read, added: 0, alreadyThere: 0, bad, done: false };
  if (bad.length > 0 && (!keepGood || bad[0]?.line === 1)) return result;
  signal?.throwIfAborted();
  const before = await countOf(store, entries);
  try {
    const written = entries.map(({ entry }) => entry);
    await store.append(written, { onProgress, alongside: alongside?.(written) });
  } catch (error) {
    if (!(error instanceof ConflictError)) throw error;
    bad.push(conflictLine(error, entries));
    return result;
  }
  result.added = (await countOf(store, entries)) - before;
  result.alreadyThere = entries.length - result.added;
  result.done = true;
  return result;
}

interface ReadEntry {
  line: number;
  entry: Entry;
}

async function readFile(
  lines: AsyncIterable<string> | Iterable<string>,
  store: RecordStore,
  { onProgress, signal }: Pick<RecordImportOptions, "onProgress" | "signal">,
): Promise<{ entries: ReadEntry[]; bad: BadRecordLine[]; read: number }> {
  const entries: ReadEntry[] = [];
  const bad: BadRecordLine[] = [];
  let references: References | null = null;
  let expected = 0;
  let line = 0;
  let read = 0;
  for await (const text of lines) {
    line += 1;
    if (line % linesALook === 0) {
      signal?.throwIfAborted();
      onProgress?.(read, expected);
    }
    if (!references) {
      const first = readHeader(text);
      const faults = first.faults ?? (await otherClinic(store, first.header.clinicId));
      if (first.faults || faults.length > 0) return { entries, bad: [{ line, faults }], read };
      references = new References(store, first.header.clinicId);
      expected = first.header.entries;
      continue;
    }
    if (text.trim() === "") continue;
    read += 1;
    const checked = readEntry(text);
    const faults = checked.entry ? await references.faultsOf(checked.entry) : checked.faults;
    if (checked.entry && faults.length === 0) {
      references.add(checked.entry);
      entries.push({ line, entry: checked.entry });
    } else bad.push({ line, faults });
  }
  if (!references) bad.push({ line: 1, faults: [wholeFile("is empty", 0, "an exported record")] });
  else if (read !== expected) {
    const problem = read < expected ? "ends early" : "has more entries than its first line says";
    bad.push({ line: line + 1, faults: [wholeFile(problem, read, `${expected} entries`)] });
  }
  return { entries, bad, read };
}

function readEntry(text: string): ReturnType<typeof checkEntry> {
  const parsed = parseLine(text);
  return parsed.fault ? { faults: [parsed.fault] } : checkEntry(parsed.value);
}

/** A bench keeps the record of one clinic. */
async function otherClinic(store: RecordStore, clinicId: string): Promise<Fault[]> {
  const own = (await store.clinicIds())[0];
  if (own === undefined || own === clinicId) return [];
  return [{ path: "clinicId", problem: "is another clinic's", got: clinicId, expected: own }];
}

function wholeFile(problem: string, got: unknown, expected: string): Fault {
  return { path: "", problem, got, expected };
}

async function countOf(store: RecordStore, entries: readonly ReadEntry[]): Promise<number> {
  const [first] = entries;
  return first ? (await store.counts(first.entry.clinicId)).entries : 0;
}

function conflictLine({ code, existing }: ConflictError, entries: readonly ReadEntry[]): BadRecordLine {
  const clash = entries.find(({ entry }) =>
    code === "idReused"
      ? entry.id === existing.id
      : entry.corrects?.id === existing.corrects?.id && entry.id !== existing.id,
  );
  const fault =
    code === "idReused"
      ? {
          path: "id",
          problem: "is in the record with other content",
          got: existing.id,
          expected: "the same content, or another id",
        }
      : {
          path: "corrects.id",
          problem: "was already corrected",
          got: existing.corrects?.id,
          expected: `the correction ${existing.id}`,
        };
  return { line: clash?.line ?? 1, faults: [fault] };
}
