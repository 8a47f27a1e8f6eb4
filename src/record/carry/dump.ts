import { createHash } from "node:crypto";
import { type Kysely, sql } from "kysely";
import { readMark } from "../keys/index.ts";
import { programVersion } from "../programVersion.ts";
import { engineOf } from "../store/engine.ts";
import type { Progress } from "../store/index.ts";
import type { RecordTables } from "../store/schema.ts";
import { type Digests, type Header, rowLine } from "./format.ts";
import { clinicsOf, rowsOf } from "./snapshot.ts";
import { type CarriedTable, carriedTables } from "./tables.ts";

type Db = Kysely<RecordTables>;

interface DumpOptions {
  nowMs?: number;
  /** Rows of each table at most: a trial, which is never restored. */
  trialRows?: number;
  onProgress?: Progress;
  signal?: AbortSignal;
}

/**
 * A record as JSON Lines: a header, each table's columns and rows, and a trailer with a hash a table. Each piece is
 * some hundred whole lines.
 * @param snapshot the record at one instant, see `withSnapshot`
 */
export async function* dumpLines(
  snapshot: Db,
  { nowMs = Date.now(), trialRows, onProgress, signal }: DumpOptions = {},
): AsyncGenerator<string> {
  const tables = await carriedTables(snapshot);
  const header = await headerOf(snapshot, tables, nowMs, trialRows);
  yield lineOf(header);
  const total = Object.values(header.rows).reduce((sum, rows) => sum + rows, 0);
  const end: Digests = {};
  let done = 0;
  for (const table of tables) {
    yield lineOf({ table: table.name, columns: table.columns.map(({ name, kind }) => [name, kind]) });
    const hash = createHash("sha256");
    let rows = 0;
    for await (const piece of linesOf(snapshot, table, trialRows)) {
      signal?.throwIfAborted();
      hash.update(piece.text);
      rows += piece.rows;
      done += piece.rows;
      yield piece.text;
      onProgress?.(done, total);
    }
    end[table.name] = { rows, sha256: hash.digest("hex") };
  }
  yield lineOf({ end });
}

/** A hash of every carried table: equal records have equal ones, whatever engine keeps them. */
export async function digestsOf(
  snapshot: Db,
  { onProgress, signal }: Pick<DumpOptions, "onProgress" | "signal"> = {},
): Promise<Digests> {
  const digests: Digests = {};
  let done = 0;
  for (const table of await carriedTables(snapshot)) {
    const hash = createHash("sha256");
    let rows = 0;
    for await (const piece of linesOf(snapshot, table)) {
      signal?.throwIfAborted();
      hash.update(piece.text);
      rows += piece.rows;
      done += piece.rows;
      onProgress?.(done, done);
    }
    digests[table.name] = { rows, sha256: hash.digest("hex") };
  }
  return digests;
}

/** Photographs make long rows; a piece ends where it is long enough, in rows or in letters. */
const lettersAPiece = 1 << 20;

async function* linesOf(
  snapshot: Db,
  table: CarriedTable,
  limit?: number,
): AsyncGenerator<{ text: string; rows: number }> {
  let [text, rows] = ["", 0];
  for await (const batch of rowsOf(snapshot, table, limit)) {
    for (const row of batch) {
      text += rowLine(row, table);
      rows += 1;
      if (text.length < lettersAPiece) continue;
      yield { text, rows };
      [text, rows] = ["", 0];
    }
    if (rows > 0) yield { text, rows };
    [text, rows] = ["", 0];
  }
}

async function headerOf(
  snapshot: Db,
  tables: readonly CarriedTable[],
  nowMs: number,
  trialRows: number | undefined,
): Promise<Header> {
  const rows: Header["rows"] = {};
  for (const { name } of tables) {
    const { count } = await snapshot
      .selectFrom(name as "mark")
      .select(({ fn }) => fn.countAll<number>().as("count"))
      .executeTakeFirstOrThrow();
    rows[name] = Math.min(Number(count), trialRows ?? Number.POSITIVE_INFINITY);
  }
  return {
    format: "roundel-backup",
    version: 1,
    recordId: (await readMark(snapshot, "recordId"))!,
    madeAt: new Date(nowMs).toISOString(),
    programVersion,
    migrations: await migrationsOf(snapshot),
    clinics: await clinicsOf(snapshot),
    lastCursor: await lastCursorOf(snapshot),
    rows,
    ...(trialRows === undefined ? {} : { isTrial: true }),
  };
}

export async function migrationsOf(db: Db): Promise<string[]> {
  const { rows } = await sql<{
    name: string;
  }>`select name from kysely_migration order by timestamp, name`.execute(db);
  return rows.map(({ name }) => name);
}

/** Engines remember it apart from the entries, which may be gone. */
async function lastCursorOf(db: Db): Promise<number> {
  const query =
    engineOf(db) === "sqlite"
      ? sql<{ last: number }>`select seq as last from sqlite_sequence where name = 'entry'`
      : sql<{
          last: number;
        }>`select case when is_called then last_value else 0 end as last from entry_cursor`;
  const { rows } = await query.execute(db);
  return Number(rows[0]?.last ?? 0);
}

function lineOf(value: unknown): string {
  return `${JSON.stringify(value)}\n`;
}
