import { setTimeout as pause } from "node:timers/promises";
import type { Kysely, Transaction } from "kysely";
import { isConnectionLost, isLostAgainstAnother } from "./postgres/failures.ts";
import type { RecordTables } from "./schema.ts";

interface TransactOptions {
  /**
   * Doing it twice leaves what doing it once leaves. Only then is it tried again after the connection was lost, since
   * nobody can tell whether the first was kept.
   */
  repeatable?: boolean;
}

/** Waits between tries, ms; a server that was started anew is back within them. */
const waitsMs = [20, 100, 500, 1500];

/**
 * Does work in one transaction, all or none. What lost against another transaction left no trace and is tried again;
 * SQLite has neither failure. Work may thus run more than once and keeps nothing outside the transaction.
 */
export async function transact<T>(
  db: Kysely<RecordTables>,
  work: (trx: Transaction<RecordTables>) => Promise<T>,
  { repeatable = false }: TransactOptions = {},
): Promise<T> {
  for (let tries = 0; ; tries += 1) {
    try {
      return await db.transaction().execute(work);
    } catch (error) {
      const mayRetry = isLostAgainstAnother(error) || (repeatable && isConnectionLost(error));
      const waitMs = waitsMs[tries];
      if (!mayRetry || waitMs === undefined) throw error;
      // Two that lost together would meet again without chance.
      await pause(waitMs * (0.5 + Math.random()));
    }
  }
}
