import { readdir, rm, stat } from "node:fs/promises";
import { basename, dirname, join, resolve } from "node:path";
import type { Kysely } from "kysely";
import type { OpenRecord } from "../open/index.ts";
import type { Progress } from "../store/index.ts";
import type { RecordTables } from "../store/schema.ts";
import { dumpLines } from "./dump.ts";
import { CarryFault } from "./fault.ts";
import { note } from "./noted.ts";
import { writeSealed } from "./sealedFile.ts";
import { withSnapshot } from "./snapshot.ts";

export interface BackupOptions {
  /** A folder, in which it gets a name with its date, or a file. */
  to: string;
  /** Keeps so many of this record's backups in the folder, this one included, and deletes older ones. */
  keep?: number;
  nowMs?: number;
  onProgress?: Progress;
  signal?: AbortSignal;
}

export interface BackupMade {
  file: string;
  bytes: number;
  rows: number;
  /** Older ones that were deleted. */
  removed: string[];
  /** False: there is no recovery key, and without the key file nobody ever opens it. */
  opensWithRecoveryKey: boolean;
}

/** What the record remembers of its last backup. */
const lastBackupMark = "lastBackup";

/**
 * Writes the record as it stands at this instant into one sealed file, while the bench goes on writing. The file
 * takes its name when all of it is on disk.
 * @throws {CarryFault} @throws {KeyFault}
 */
export async function backUp(
  record: OpenRecord,
  { to, keep, nowMs = Date.now(), onProgress, signal }: BackupOptions,
): Promise<BackupMade> {
  const { db, store } = record;
  const keys = await record.keys();
  await keys.follow();
  const file = await fileFor(to, keys.recordId, nowMs);
  let rows = 0;
  await withSnapshot(db, (snapshot) => {
    const count: Progress = (done, total) => {
      rows = done;
      onProgress?.(done, total);
    };
    const lines = dumpLines(snapshot, { nowMs, onProgress: count, signal });
    return writeSealed(file, lines, { recipients: keys.recipients, signal });
  });
  await store.setMark(
    lastBackupMark,
    JSON.stringify({ file: resolve(file), at: new Date(nowMs).toISOString() }),
  );
  await note(record, "backUp", nowMs);
  return {
    file,
    bytes: (await stat(file)).size,
    rows,
    removed: keep === undefined ? [] : await removeOlder(file, keys.recordId, keep),
    opensWithRecoveryKey: keys.recovery !== null,
  };
}

/** Where the last backup was written; null where there was none. */
export async function lastBackupOf(db: Kysely<RecordTables>): Promise<{ file: string; at: string } | null> {
  const row = await db
    .selectFrom("mark")
    .select("value")
    .where("name", "=", lastBackupMark)
    .executeTakeFirst();
  return row ? JSON.parse(row.value) : null;
}

/** The name says what is inside, so that the usual tools open it: age, then gzip, then lines of JSON. */
const ending = ".jsonl.gz.age";

async function fileFor(to: string, recordId: string, nowMs: number): Promise<string> {
  const found = await stat(to).catch(() => null);
  if (found?.isDirectory()) return join(to, `${beginning(recordId)}${stampOf(nowMs)}${ending}`);
  if (/[/\\]$/.test(to) || !(await isFolder(dirname(to)))) {
    throw new CarryFault(
      "noBackup",
      `There is no folder ${/[/\\]$/.test(to) ? to : dirname(to)} to write into.`,
    );
  }
  return to;
}

async function isFolder(path: string): Promise<boolean> {
  return (await stat(path).catch(() => null))?.isDirectory() === true;
}

function beginning(recordId: string): string {
  return `roundel-${recordId.slice(0, 8)}-`;
}

/** Sorted by name they are sorted by time. */
function stampOf(nowMs: number): string {
  return new Date(nowMs).toISOString().replace(/[:.]/g, "");
}

/** Only files with a name that a backup of this record gets are ever deleted. */
async function removeOlder(file: string, recordId: string, keep: number): Promise<string[]> {
  const folder = dirname(file);
  const shape = new RegExp(`^${beginning(recordId)}\\d{4}-\\d\\d-\\d\\dT\\d{9}Z\\.jsonl\\.gz\\.age$`);
  const names = (await readdir(folder)).filter((name) => shape.test(name)).sort();
  const older = names.slice(0, -keep).filter((name) => name !== basename(file));
  for (const name of older) await rm(join(folder, name));
  return older.map((name) => join(folder, name));
}
