import { type Kysely, type Migration, Migrator } from "kysely";
import * as accounts from "./2026-11-25-accounts.ts";
import * as audit from "./2026-11-25-audit.ts";
import * as entries from "./2026-11-25-entries.ts";
import * as photo from "./2026-11-25-photo.ts";
import * as tombstone from "./2026-11-25-tombstone.ts";

/** Forward only; a released migration is never edited. */
const migrations: Record<string, Migration> = {
  "2026-11-25-entries": entries,
  "2026-11-25-accounts": accounts,
  "2026-11-25-audit": audit,
  "2026-11-25-photo": photo,
  "2026-11-25-tombstone": tombstone,
};

export const migrationNames: readonly string[] = Object.keys(migrations);

/**
 * Brings the tables up to date.
 * @param only the migrations of an older program: the tables as a backup of that time has them
 */
// biome-ignore lint/suspicious/noExplicitAny: a migration sees the tables as they were, not as they are now
export async function migrate(db: Kysely<any>, only = migrationNames): Promise<void> {
  const wanted = Object.fromEntries(only.map((name) => [name, migrations[name]!]));
  const migrator = new Migrator({
    db,
    provider: { getMigrations: async () => wanted },
    // Migrations of one day come from parts that know nothing of each other; none builds on another's name.
    allowUnorderedMigrations: true,
  });
  const { error } = await migrator.migrateToLatest();
  if (error) throw error;
}
