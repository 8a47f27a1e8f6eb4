import { type Kysely, sql } from "kysely";
import { engineOf } from "../store/engine.ts";
import type { Progress } from "../store/index.ts";
import { migrate, migrationNames } from "../store/migrations/index.ts";
import { Partitions } from "../store/postgres/partitions.ts";
import type { RecordTables } from "../store/schema.ts";
import { CarryFault } from "./fault.ts";
import type { Digests, Header } from "./format.ts";
import { type Rows, readDump } from "./read.ts";
import { unhurried } from "./snapshot.ts";
import { carriedTables } from "./tables.ts";

type Db = Kysely<RecordTables>;

interface LoadOptions {
  /** Looks at the header before anything is written; may refuse by throwing. */
  onHeader?(header: Header): void | Promise<void>;
  /** Looks at what was loaded before it is kept; may refuse by throwing. */
  beforeCommit?(loaded: Db, digests: Digests): Promise<void>;
  onProgress?: Progress;
  signal?: AbortSignal;
}

/** Reads a dump to its end and believes nothing before. @throws {CarryFault} */
export async function verifyDump(
  lines: AsyncIterable<string>,
  { onHeader, onProgress, signal }: Omit<LoadOptions, "beforeCommit"> = {},
): Promise<Header> {
  let found!: Header;
  const count = counting(onProgress);
  const pieces = readDump(lines, async (header) => {
    refuseUnknown(header);
    await onHeader?.(header);
    found = header;
    count.expect(header);
  });
  for await (const { rows } of pieces) {
    signal?.throwIfAborted();
    count.add(rows.length);
  }
  return found;
}

/**
 * Brings an empty database to the form a dump was made in, fills it, and brings it up to date. The rows come in one
 * transaction: all of them or none.
 * @throws {CarryFault}
 */
export async function loadDump(
  db: Db,
  lines: AsyncIterable<string>,
  { onHeader, beforeCommit, onProgress, signal }: LoadOptions = {},
): Promise<Header> {
  let found: Header | null = null;
  const count = counting(onProgress);
  const pieces = readDump(lines, async (header) => {
    refuseUnknown(header);
    await onHeader?.(header);
    await migrate(db, header.migrations);
    const partitions = new Partitions(db);
    for (const clinicId of header.clinics) await partitions.ready(clinicId);
    count.expect(header);
    found = header;
  });
  const first = await pieces.next();
  if (found === null) throw new Error("a dump without a header was let through");
  const header: Header = found;
  await db.transaction().execute(async (trx) => {
    if (engineOf(trx) === "postgres") await unhurried(trx);
    const columns = await columnsByTable(trx);
    let piece = first;
    for (; !piece.done; piece = await pieces.next()) {
      signal?.throwIfAborted();
      refuseStrangers(piece.value, columns);
      await insert(trx, piece.value);
      count.add(piece.value.rows.length);
    }
    await goOnFrom(trx, header.lastCursor);
    await beforeCommit?.(trx, piece.value);
  });
  await migrate(db);
  return header;
}

function counting(onProgress: Progress | undefined) {
  let [done, total] = [0, 0];
  return {
    expect({ rows }: Header) {
      total = Object.values(rows).reduce((sum, count) => sum + count, 0);
    },
    add(rows: number) {
      done += rows;
      onProgress?.(done, total);
    },
  };
}

function refuseUnknown({ migrations }: Header): void {
  if (migrations.every((name) => migrationNames.includes(name))) return;
  throw new CarryFault(
    "newerProgram",
    "It was made by a newer version of Roundel than this one. Restore it with that version, or a newer one.",
  );
}

async function columnsByTable(db: Db): Promise<Map<string, Set<string>>> {
  const tables = await carriedTables(db);
  return new Map(tables.map(({ name, columns }) => [name, new Set(columns.map((column) => column.name))]));
}

/** Names go into statements: only those go in that the database has. */
function refuseStrangers({ table, columns }: Rows, known: Map<string, Set<string>>): void {
  const own = known.get(table);
  const stranger = own ? columns.find(([name]) => !own.has(name))?.[0] : table;
  if (stranger === undefined) return;
  throw new CarryFault("damaged", `The backup is damaged: ${stranger} belongs to no table of its time.`);
}

/** Well under every engine's limit of values in one statement (SQLite 32,766; PostgreSQL 65,535). */
const valuesAtOnce = 20_000;

async function insert(trx: Db, { table, columns, rows }: Rows): Promise<void> {
  const rowsAtOnce = Math.max(1, Math.floor(valuesAtOnce / Math.max(1, columns.length)));
  for (let from = 0; from < rows.length; from += rowsAtOnce) {
    const values = rows
      .slice(from, from + rowsAtOnce)
      .map((row) => Object.fromEntries(columns.map(([name], at) => [name, row[at]])));
    await trx
      .insertInto(table as "mark")
      .values(values as never)
      .execute();
  }
}

/** The next entry gets a cursor that none ever had. */
async function goOnFrom(trx: Db, lastCursor: number): Promise<void> {
  if (lastCursor === 0) return;
  if (engineOf(trx) === "postgres") {
    await sql`select setval('entry_cursor', ${lastCursor})`.execute(trx);
    return;
  }
  await sql`delete from sqlite_sequence where name = 'entry'`.execute(trx);
  await sql`insert into sqlite_sequence (name, seq) values ('entry', ${lastCursor})`.execute(trx);
}
