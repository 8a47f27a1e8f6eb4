import { type Kysely, sql } from "kysely";
import type { RecordTables } from "../store/schema.ts";
import type { Finding } from "./finding.ts";

/** Whether the pages of an SQLite file hold together. Damage that stops the check itself is a finding as well. */
export async function* checkPages(db: Kysely<RecordTables>): AsyncGenerator<Finding> {
  const { rows } = await sql<{ integrity_check: string }>`pragma integrity_check(20)`.execute(db);
  for (const { integrity_check } of rows) {
    if (integrity_check !== "ok") yield { part: "file", id: null, problem: `${integrity_check}.` };
  }
  const foreign = await sql<{ table: string; rowid: number }>`pragma foreign_key_check`.execute(db);
  for (const { table, rowid } of foreign.rows) {
    yield { part: "file", id: null, problem: `Row ${rowid} of ${table} belongs to nothing.` };
  }
}
