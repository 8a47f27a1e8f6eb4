import Database from "better-sqlite3";
import { type Expression, Kysely, SqliteDialect, sql } from "kysely";
import { engineOf } from "../store/engine.ts";
import type { RecordTables } from "../store/schema.ts";
import { type CarriedTable, carriedTables } from "./tables.ts";

type Db = Kysely<RecordTables>;

/** Rows that are held at once, and fewer of those with photographs in them. */
export const rowsALook = 500;
const photosALook = 20;

/**
 * Shows the record as it stands at one instant, however long the work takes and whatever is written meanwhile.
 * SQLite: a connection of its own, so that the bench's is free.
 */
export async function withSnapshot<T>(db: Db, work: (snapshot: Db) => Promise<T>): Promise<T> {
  if (engineOf(db) === "postgres") {
    return db
      .transaction()
      .setIsolationLevel("repeatable read")
      .setAccessMode("read only")
      .execute(async (trx) => {
        await unhurried(trx);
        return work(trx);
      });
  }
  return withFileSnapshot(await fileOf(db), work);
}

/** The same of a file that need not be whole. */
export async function withFileSnapshot<T>(file: string, work: (snapshot: Db) => Promise<T>): Promise<T> {
  const own = readOnly(file);
  try {
    return await own.connection().execute(async (one) => {
      // Ended by closing it: a file with damage may end it by itself, and nothing was written.
      await sql`begin`.execute(one);
      return work(one);
    });
  } finally {
    await own.destroy();
  }
}

/** The same while nobody can write: what is written nowhere else cannot be left behind. */
export async function withFrozen<T>(db: Db, work: (snapshot: Db) => Promise<T>): Promise<T> {
  // A transaction of SQLite holds the lock of writing from its beginning.
  if (engineOf(db) === "sqlite") return db.transaction().execute((trx) => withSnapshot(trx, work));
  return db
    .transaction()
    .setIsolationLevel("repeatable read")
    .execute(async (trx) => {
      await unhurried(trx);
      const tables = await carriedTables(db);
      await sql`lock table ${sql.join(tables.map(({ name }) => sql.table(name)))} in share mode`.execute(trx);
      return work(trx);
    });
}

/** A whole table takes longer than a bench ever waits. */
export async function unhurried(trx: Db): Promise<void> {
  for (const wait of ["statement_timeout", "idle_in_transaction_session_timeout"]) {
    await sql`set local ${sql.raw(wait)} = 0`.execute(trx);
  }
}

/** A connection that cannot write, and does not bring tables up to date. */
export function readOnly(file: string): Db {
  const database = new Database(file, { readonly: true, fileMustExist: true });
  return new Kysely<RecordTables>({ dialect: new SqliteDialect({ database }) });
}

async function fileOf(db: Db): Promise<string> {
  const main = sql<{ file: string }>`select file from pragma_database_list where name = 'main'`;
  const { rows } = await main.execute(db);
  return rows[0]!.file;
}

/** All rows of a table in order of its key, some at a time. @param limit rows at most, from the first on */
export async function* rowsOf(
  db: Db,
  table: CarriedTable,
  limit?: number,
): AsyncGenerator<Record<string, unknown>[]> {
  const atOnce = table.columns.some(({ kind }) => kind === "bytes") ? photosALook : rowsALook;
  if (engineOf(db) === "postgres") yield* fetched(db, query(db, table, limit), atOnce);
  else if (table.name !== "entry") yield* batched(query(db, table, limit).stream(), atOnce);
  else {
    let left = limit;
    for (const clinicId of await clinicsOf(db)) {
      // In the order in which the file has them: an index by clinic would mean sorting them all.
      const ofClinic = query(db, { ...table, key: ["cursor"] }, left);
      const rows = ofClinic.where(sql.raw("+clinic_id"), "=", clinicId).stream();
      for await (const batch of batched(rows, atOnce)) {
        yield batch;
        if (left !== undefined) left -= batch.length;
      }
    }
  }
}

/** In order of the key: text by code point, whatever the server's own language is. */
function query(db: Db, { name, columns, key }: CarriedTable, limit: number | undefined) {
  let rows = db
    .selectFrom(name as "mark")
    .select(columns.map((column) => sql.ref(column.name).as(column.name)));
  for (const column of key) {
    const isText = columns.find((one) => one.name === column)?.kind === "text";
    const byCode = isText && engineOf(db) === "postgres" ? sql` collate "C"` : sql``;
    rows = rows.orderBy(sql`${sql.ref(column)}${byCode}`);
  }
  return limit === undefined ? rows : rows.limit(limit);
}

/** Clinics with entries, in order. */
export async function clinicsOf(db: Db): Promise<string[]> {
  const rows = await db.selectFrom("entry").select("clinic_id").distinct().orderBy("clinic_id").execute();
  return rows.map((row) => row.clinic_id);
}

/** A cursor of the server's, so that the rows come in pieces. */
async function* fetched(
  db: Db,
  rows: Expression<unknown>,
  atOnce: number,
): AsyncGenerator<Record<string, unknown>[]> {
  await sql`declare carried no scroll cursor for ${rows}`.execute(db);
  const fetch = sql<Record<string, unknown>>`fetch ${sql.lit(atOnce)} from carried`;
  while (true) {
    const { rows: piece } = await fetch.execute(db);
    if (piece.length === 0) break;
    yield piece;
  }
  await sql`close carried`.execute(db);
}

async function* batched<T>(rows: AsyncIterable<T>, atOnce: number): AsyncGenerator<T[]> {
  let batch: T[] = [];
  for await (const row of rows) {
    batch.push(row);
    if (batch.length < atOnce) continue;
    yield batch;
    batch = [];
  }
  if (batch.length > 0) yield batch;
}
