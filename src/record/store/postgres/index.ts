import { Kysely, PostgresAdapter, PostgresDialect, sql } from "kysely";
import { migrate } from "../migrations/index.ts";
import type { RecordTables } from "../schema.ts";
import { type DatabaseAddress, databaseAddress } from "./address.ts";
import { openingFault } from "./fault.ts";
import { openPool } from "./pool.ts";

/**
 * Opens a database of a PostgreSQL server and brings its tables up to date. What is acknowledged is on the server's
 * disk, as long as neither `fsync` nor `synchronous_commit` were turned off there.
 * @throws {DatabaseFault}
 */
export async function openPostgresDatabase(url: string): Promise<Kysely<RecordTables>> {
  const address = databaseAddress(url);
  await bringUpToDate(address).catch((error) => {
    throw openingFault(error, address.shown);
  });
  return connected(url);
}

/** A database whose tables are up to date. */
export function connected(url: string): Kysely<RecordTables> {
  return new Kysely<RecordTables>({ dialect: new PostgresDialect({ pool: openPool(url) }) });
}

/** Migrations are held apart by a lock of ours, which ends with its transaction and so does well behind a pooler. */
class UnlockedAdapter extends PostgresAdapter {
  override async acquireMigrationLock(): Promise<void> {}
  override async releaseMigrationLock(): Promise<void> {}
}

class UnlockedDialect extends PostgresDialect {
  override createAdapter() {
    return new UnlockedAdapter();
  }
}

/** Several processes may start at once: one migrates, the others wait and find nothing left to do. */
async function bringUpToDate({ url }: DatabaseAddress): Promise<void> {
  const db = new Kysely<RecordTables>({
    dialect: new UnlockedDialect({ pool: openPool(url, { patient: true }) }),
  });
  try {
    await db.transaction().execute(async (holding) => {
      await sql`select pg_advisory_xact_lock(hashtextextended('roundel migrations', 0))`.execute(holding);
      await migrate(db);
    });
  } finally {
    await db.destroy();
  }
}
