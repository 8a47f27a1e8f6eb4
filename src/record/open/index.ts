import type { Kysely } from "kysely";
import { type RecordStore, recordFile } from "../store/index.ts";
import type { RecordTables } from "../store/schema.ts";
import { openSqliteDatabase } from "../store/sqlite/index.ts";
import { SqlStore } from "../store/sqlStore.ts";

/** Everything a clinic keeps, open: what is written about people, and what stands beside it. */
export interface OpenRecord {
  store: RecordStore;
  /** For the parts of `record` that keep tables of their own; nobody else builds queries. */
  db: Kysely<RecordTables>;
  close(): Promise<void>;
}

/** Opens what a data folder keeps. */
export async function openRecord({ dataDir }: { dataDir: string }): Promise<OpenRecord> {
  const db = await openSqliteDatabase(recordFile(dataDir));
  const store = new SqlStore(db);
  return { store, db, close: () => store.close() };
}
