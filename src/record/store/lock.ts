import { type Kysely, sql } from "kysely";
import { engineOf } from "./engine.ts";
import type { RecordTables } from "./schema.ts";

/** What only one transaction at a time may add to, in one clinic. Who takes both takes the entries first. */
export type Locked = "entries" | "audit";

/**
 * Lets one transaction at a time append to a clinic, until it ends: so that the order of cursors is the order of
 * commits, and what was read before writing still holds. A transaction of SQLite holds the lock of the whole file
 * from its beginning, so that nothing is left to do there.
 */
export async function lockClinic(
  trx: Kysely<RecordTables>,
  clinicId: string,
  what: Locked = "entries",
): Promise<void> {
  if (engineOf(trx) === "sqlite") return;
  await sql`select pg_advisory_xact_lock(hashtextextended(${`roundel ${what} ${clinicId}`}, 0))`.execute(trx);
}
