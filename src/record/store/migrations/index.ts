import { type Kysely, type Migration, Migrator } from "kysely";
import * as record from "./2026-11-25-record.ts";

/** Forward only; a released migration is never edited. */
const migrations: Record<string, Migration> = {
  "2026-11-25-record": record,
};

/** Brings the tables up to date. A database that cannot be brought there is closed. */
// biome-ignore lint/suspicious/noExplicitAny: a migration sees the tables as they were, not as they are now
export async function migrate(db: Kysely<any>): Promise<void> {
  const migrator = new Migrator({ db, provider: { getMigrations: async () => migrations } });
  const { error } = await migrator.migrateToLatest();
  if (!error) return;
  await db.destroy();
  throw error;
}
