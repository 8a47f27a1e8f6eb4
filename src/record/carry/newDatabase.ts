import Database from "better-sqlite3";
import { Kysely, SqliteDialect } from "kysely";
import type { RecordTables } from "../store/schema.ts";

/** An SQLite database that is thrown away if anything fails, and so needs no journal on disk. */
export function newDatabase(file: string): Kysely<RecordTables> {
  const database = new Database(file);
  database.pragma("journal_mode = MEMORY");
  database.pragma("synchronous = OFF");
  database.pragma("foreign_keys = ON");
  database.pragma("secure_delete = ON");
  return new Kysely<RecordTables>({ dialect: new SqliteDialect({ database }) });
}
