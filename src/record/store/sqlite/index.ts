import { mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import Database from "better-sqlite3";
import { Kysely } from "kysely";
import { migrate } from "../migrations/index.ts";
import type { RecordTables } from "../schema.ts";
import { SqlStore } from "../sqlStore.ts";
import type { RecordStore } from "../store.ts";
import { WritingFirstDialect } from "./dialect.ts";
import { sqliteFault } from "./fault.ts";

/** A record is for the account that keeps it alone. */
const privateFolder = 0o700;

/** Where a data folder keeps its record. */
export function recordFile(dataDir: string): string {
  return join(dataDir, "record.sqlite");
}

/**
 * Opens the embedded database, making the file and its folder when they are not there, and brings its tables up
 * to date. WAL so that readers never wait; `synchronous=FULL` so that what is acknowledged is on disk.
 * @throws {DatabaseFault} where the file cannot be opened, or is damaged
 */
export async function openSqliteDatabase(file: string): Promise<Kysely<RecordTables>> {
  try {
    return await opened(file);
  } catch (error) {
    throw sqliteFault(error, file);
  }
}

async function opened(file: string): Promise<Kysely<RecordTables>> {
  if (file !== ":memory:") mkdirSync(dirname(file), { recursive: true, mode: privateFolder });
  const database = new Database(file);
  database.pragma("journal_mode = WAL");
  database.pragma("synchronous = FULL");
  database.pragma("foreign_keys = ON");
  database.pragma("busy_timeout = 5000");
  // Whoever is erased leaves no bytes behind in pages that are used again.
  database.pragma("secure_delete = ON");
  const db = new Kysely<RecordTables>({ dialect: new WritingFirstDialect({ database }) });
  await migrate(db).catch(async (error) => {
    await db.destroy();
    throw error;
  });
  return db;
}

/** The record alone, for those who need nothing else of the database. */
export async function openSqlite(file: string): Promise<RecordStore> {
  return new SqlStore(await openSqliteDatabase(file));
}
