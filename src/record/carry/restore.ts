import type { Kysely } from "kysely";
import type { Tombstone } from "../erasure/index.ts";
import { KeyFault, keyFilePlace, readKeyFile } from "../keys/index.ts";
import type { Progress } from "../store/index.ts";
import type { RecordTables } from "../store/schema.ts";
import { identitiesFor, type OpenedBy } from "./candidates.ts";
import { CarryFault } from "./fault.ts";
import type { Header } from "./format.ts";
import { loadDump, verifyDump } from "./load.ts";
import { readSealed } from "./sealedFile.ts";
import { type Settled, settle } from "./settle.ts";
import { type Standing, standingIn } from "./standing.ts";
import { intoFolder, refuseFullDatabase, type Target, withDatabase } from "./target.ts";

type Db = Kysely<RecordTables>;

export interface Steps {
  /** The backup is read to its end and checked. */
  onChecking?: Progress;
  /** Its rows are written. */
  onWriting?: Progress;
  signal?: AbortSignal;
}

export interface RestoreOptions extends OpenedBy, Steps {
  from: string;
  /** A folder is made where it is not there; a database must be empty. */
  to: Target;
  /** Put it in the place of the record of the folder, which is set aside and not deleted. */
  replace?: boolean;
  nowMs?: number;
}

export interface Restored extends Settled {
  backup: BackupFacts;
  /** Where the record is that was there before. */
  setAside: string | null;
}

/** What a backup says of itself. */
export interface BackupFacts {
  recordId: string;
  madeAt: string;
  entries: number;
  photos: number;
}

/** Reads a backup to its end, and writes nothing. @throws {CarryFault} @throws {KeyFault} */
export async function verifyBackup(
  { from, onChecking, signal, ...openedBy }: OpenedBy & Steps & { from: string },
  onHeader?: (header: Header) => void | Promise<void>,
): Promise<BackupFacts> {
  const identities = await identitiesFor(openedBy);
  const header = await verifyDump(readSealed(from, identities), {
    async onHeader(header) {
      refuseTrial(header);
      await onHeader?.(header);
    },
    onProgress: onChecking,
    signal,
  });
  const { recordId, madeAt, rows } = header;
  return { recordId, madeAt, entries: rows.entry ?? 0, photos: rows.photo ?? 0 };
}

/**
 * Puts the record of a backup into a data folder or an empty database. The whole backup is checked first. In a folder
 * a new database is made beside the old one and takes its place when it is finished; until then nothing is changed.
 * @throws {CarryFault} @throws {KeyFault} @throws {DatabaseFault}
 */
export async function restore(options: RestoreOptions): Promise<Restored> {
  const { to, nowMs = Date.now() } = options;
  if ("url" in to) return withDatabase(to.url, (db) => restoreIntoDatabase(db, options, nowMs));
  const { dataDir } = to;
  const standing = await standingIn(dataDir);
  if (standing && !options.replace) throw thereIsARecord(dataDir);
  const backup = await verifyBackup(options, async (header) => {
    refuseAnother(standing, header, dataDir);
    await refuseWithoutKeys(header, options);
  });
  const { result, setAside } = await intoFolder(dataDir, nowMs, async (db) => {
    const settled = await fill(db, options, { nowMs, dataDir, tombstones: standing?.tombstones ?? [] });
    options.signal?.throwIfAborted();
    return settled;
  });
  return { backup, ...result, setAside };
}

async function restoreIntoDatabase(db: Db, options: RestoreOptions, nowMs: number): Promise<Restored> {
  const backup = await verifyBackup(options, async (header) => {
    await refuseFullDatabase(db, header);
    await refuseWithoutKeys(header, options);
  });
  const settled = await fill(db, options, { nowMs, tombstones: [] });
  return { backup, ...settled, setAside: null };
}

async function fill(
  db: Db,
  { from, keyFile, recoveryKey, onWriting, signal }: RestoreOptions,
  about: { nowMs: number; dataDir?: string; tombstones: Tombstone[] },
): Promise<Settled> {
  const identities = await identitiesFor({ keyFile, recoveryKey });
  await loadDump(db, readSealed(from, identities), { onProgress: onWriting, signal });
  return settle(db, { keyFile, recoveryKey, ...about });
}

function refuseTrial({ isTrial }: Header): void {
  if (isTrial) throw new CarryFault("notABackup", "This is a trial of the recovery key, not a whole backup.");
}

function thereIsARecord(dataDir: string): CarryFault {
  return new CarryFault(
    "recordExists",
    `The folder ${dataDir} holds a record already. Name another folder, or put the backup in its place with --replace: the old record is then set aside, not deleted.`,
  );
}

/** An empty record, as a bench makes at its first start, may give way to any. */
function refuseAnother(standing: Standing | null, { recordId }: Header, dataDir: string): void {
  if (!standing || standing.entries === 0 || standing.entries === null) return;
  if (standing.recordId === recordId) return;
  throw new CarryFault(
    "anotherRecord",
    `The folder ${dataDir} holds another record (${standing.recordId ?? "without a name"}) than the backup (${recordId}). Restore into a folder of its own. Nothing was changed.`,
  );
}

/** Found out before anything is written: without its key file a record would be there and not open. */
async function refuseWithoutKeys({ recordId }: Header, { keyFile, recoveryKey }: OpenedBy): Promise<void> {
  if (recoveryKey !== undefined) return;
  const file = keyFilePlace(recordId, keyFile);
  const held = await readKeyFile(file);
  if (held?.recordId === recordId) return;
  const why = held ? `belongs to another record (${held.recordId})` : "is not there";
  throw new KeyFault(
    held ? "keyFileOfAnother" : "keyFileMissing",
    `The key file ${file} ${why}; the backup is of the record ${recordId}. Nothing was changed.`,
  );
}
