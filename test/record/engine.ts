import type { Kysely } from "kysely";
import { inject } from "vitest";
import type { RecordStore } from "../../src/record/store/index.ts";
import { connected, openPostgresDatabase } from "../../src/record/store/postgres/index.ts";
import type { RecordTables } from "../../src/record/store/schema.ts";
import { openSqliteDatabase } from "../../src/record/store/sqlite/index.ts";
import { SqlStore } from "../../src/record/store/sqlStore.ts";
import { emptied, emptyDatabase } from "../postgres/database.ts";

/**
 * The engine that the test files of the store run on: the project "unit" runs them on SQLite, "postgres" runs the same
 * files on a server.
 */
export const engine: "sqlite" | "postgres" = inject("postgresUrl") ? "postgres" : "sqlite";

export interface TestRecord {
  store: RecordStore;
  db: Kysely<RecordTables>;
  close(): Promise<void>;
}

/** An empty record of its own. */
export async function openTestRecord(): Promise<TestRecord> {
  if (engine === "sqlite") return over(await openSqliteDatabase(":memory:"), async () => {});
  const left = free.pop();
  const url = left ?? (await emptyDatabase());
  return over(left ? connected(url) : await openPostgresDatabase(url), async () => {
    await emptied(url);
    free.push(url);
  });
}

/** The store of an empty record of its own. */
export async function openTestStore(): Promise<RecordStore> {
  const { store, close } = await openTestRecord();
  store.close = close;
  return store;
}

/** Databases that another test has left, emptied: making one anew takes longer. */
const free: string[] = [];

function over(db: Kysely<RecordTables>, left: () => Promise<void>): TestRecord {
  return {
    store: new SqlStore(db),
    db,
    async close() {
      await db.destroy();
      await left();
    },
  };
}
