import type { Kysely } from "kysely";
import type { RecordTables } from "../store/schema.ts";
import { transact } from "../store/transact.ts";

export type Database = Kysely<RecordTables>;

/** One transaction, or a part of the one that is open already. */
export function inOne<T>(db: Database, work: (trx: Database) => Promise<T>): Promise<T> {
  return db.isTransaction ? work(db) : transact(db, work);
}
