import { type Kysely, sql } from "kysely";
import { engineOf } from "../store/engine.ts";
import type { RecordTables } from "../store/schema.ts";

/**
 * Empties SQLite's write-ahead log, which keeps pages as they were before a deletion; in the database itself deleted
 * rows are overwritten where they lay (`secure_delete`). What PostgreSQL keeps is its administrator's to clear: see
 * docs/guide/audit-and-erasure.md.
 * @returns false while another program reads the log
 */
export async function emptyTraces(db: Kysely<RecordTables>): Promise<boolean> {
  if (engineOf(db) === "postgres") return true;
  const { rows } = await sql<{ busy: number }>`pragma wal_checkpoint(truncate)`.execute(db);
  return rows[0]?.busy === 0;
}
