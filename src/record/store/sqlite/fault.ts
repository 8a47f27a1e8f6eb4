import { dirname } from "node:path";
import { type Kysely, sql } from "kysely";
import { DatabaseFault } from "../postgres/fault.ts";
import type { RecordTables } from "../schema.ts";
import { type DatabaseTrouble, databaseTrouble } from "../trouble.ts";

/** What whoever starts the bench is told, and what to do. */
const sentences: Partial<Record<DatabaseTrouble, (file: string) => string>> = {
  busy: (file) => `The record ${file} is being written to by another program. Try again in a moment.`,
  diskFull: (file) =>
    `The disk of ${dirname(file)} is full. What was written is safe; free some space, then start again.`,
  notWritable: (file) =>
    `The record ${file} cannot be opened for writing. Whoever runs Roundel needs the right to write to the file and to its folder.`,
  recordDamaged: damagedSentence,
};

/** How a damaged record is told of, wherever it is found out. */
export function damagedSentence(file: string): string {
  return (
    `The record ${file} is damaged: part of it is not what was written. Stop every program that uses it and keep the ` +
    "folder as it is; roundel check says what is damaged. The latest backup brings it back, into another folder: " +
    "roundel restore BACKUP --data FOLDER"
  );
}

/** The sentence for what went wrong with the file; anything else as it was. */
export function sqliteFault(error: unknown, file: string): unknown {
  const trouble = databaseTrouble(error) ?? filesTrouble(error);
  const sentence = trouble && sentences[trouble];
  return sentence ? new DatabaseFault(sentence(file)) : error;
}

/** Of the folder, before there is a database to ask. */
function filesTrouble(error: unknown): DatabaseTrouble | null {
  const { code } = (error ?? {}) as { code?: string };
  return code !== undefined && ["EACCES", "EPERM", "ENOTDIR", "EEXIST"].includes(code) ? "notWritable" : null;
}

/** A file of up to this size is read through at each start; a larger one is left to `roundel check`. */
const readThroughBytes = 256 * 1024 * 1024;

/** Looks for pages that are not what was written. @throws {DatabaseFault} */
export async function refuseDamaged(db: Kysely<RecordTables>, file: string): Promise<void> {
  try {
    const pages = await sql<{ page_count: number }>`pragma page_count`.execute(db);
    const size = await sql<{ page_size: number }>`pragma page_size`.execute(db);
    if (pages.rows[0]!.page_count * size.rows[0]!.page_size > readThroughBytes) return;
    const { rows } = await sql<{ quick_check: string }>`pragma quick_check(1)`.execute(db);
    if (rows[0]?.quick_check === "ok") return;
  } catch (error) {
    throw sqliteFault(error, file);
  }
  throw new DatabaseFault(damagedSentence(file));
}
