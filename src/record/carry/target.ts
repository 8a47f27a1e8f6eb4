import { existsSync } from "node:fs";
import { mkdir } from "node:fs/promises";
import { Kysely, PostgresDialect } from "kysely";
import { recordFile } from "../store/index.ts";
import { databaseAddress } from "../store/postgres/address.ts";
import { openingFault } from "../store/postgres/fault.ts";
import { openPool } from "../store/postgres/pool.ts";
import type { RecordTables } from "../store/schema.ts";
import { migrationsOf } from "./dump.ts";
import { CarryFault, writingFault } from "./fault.ts";
import type { Header } from "./format.ts";
import { newDatabase } from "./newDatabase.ts";
import { removeUnfinished, swapIn } from "./swap.ts";
import { carriedTables } from "./tables.ts";

type Db = Kysely<RecordTables>;

/** A data folder, or a database of a PostgreSQL server. */
export type Target = { dataDir: string } | { url: string };

/**
 * Fills a new database in a data folder. It takes its name when the work is done; if it fails nothing is left of it.
 * @returns the work's result, and where the record is now that was there before
 */
export async function intoFolder<T>(
  dataDir: string,
  nowMs: number,
  work: (db: Db) => Promise<T>,
): Promise<{ result: T; setAside: string | null }> {
  const file = recordFile(dataDir);
  const made = `${file}.making-${process.pid}`;
  try {
    await mkdir(dataDir, { recursive: true, mode: 0o700 });
    await removeUnfinished(made);
    const db = newDatabase(made);
    const result = await work(db).finally(() => db.destroy());
    return { result, setAside: await swapIn(made, file, nowMs) };
  } catch (error) {
    throw writingFault(error, file);
  } finally {
    await removeUnfinished(made);
  }
}

/** Opens a database as it is: its tables are made by what is carried there. @throws {DatabaseFault} */
export async function withDatabase<T>(url: string, work: (db: Db) => Promise<T>): Promise<T> {
  const { shown } = databaseAddress(url);
  const db = new Kysely<RecordTables>({
    dialect: new PostgresDialect({ pool: openPool(url, { patient: true }) }),
  });
  try {
    return await work(db);
  } catch (error) {
    throw openingFault(error, shown);
  } finally {
    await db.destroy();
  }
}

/** @throws {CarryFault} */
export function refuseFullFolder(dataDir: string): void {
  if (!existsSync(recordFile(dataDir))) return;
  throw new CarryFault(
    "notEmpty",
    `The folder ${dataDir} holds a record already. Name a folder that is empty.`,
  );
}

/**
 * A database with nothing in it: without tables, or with those of this very form and no row.
 * @throws {CarryFault}
 */
export async function refuseFullDatabase(db: Db, { migrations }: Pick<Header, "migrations">): Promise<void> {
  const notEmpty = () =>
    new CarryFault("notEmpty", "The database is not empty. Make a new one (createdb), and name that.");
  const tables = await carriedTables(db).catch((error) => {
    throw error instanceof CarryFault ? notEmpty() : error;
  });
  if (tables.length === 0) return;
  if ((await migrationsOf(db)).join() !== migrations.join()) throw notEmpty();
  for (const { name } of tables) {
    const row = await db
      .selectFrom(name as "mark")
      .selectAll()
      .limit(1)
      .executeTakeFirst();
    if (row) throw notEmpty();
  }
}
