import type { Kysely, Selectable } from "kysely";
import { checkEntry, sortMs } from "../entry/index.ts";
import type { Progress } from "../store/index.ts";
import type { EntryTable, RecordTables } from "../store/schema.ts";
import type { Finding } from "./finding.ts";

type Db = Kysely<RecordTables>;
type Row = Selectable<EntryTable>;

const entriesALook = 500;

/** Whether every entry can be read as what it says it is, and every correction corrects something. */
export async function* checkEntries(
  db: Db,
  clinicId: string,
  { onProgress, signal }: { onProgress?: Progress; signal?: AbortSignal } = {},
): AsyncGenerator<Finding> {
  const { entries } = await db
    .selectFrom("entry")
    .select(({ fn }) => fn.countAll<number>().as("entries"))
    .where("clinic_id", "=", clinicId)
    .executeTakeFirstOrThrow();
  let done = 0;
  let cursor = 0;
  while (true) {
    signal?.throwIfAborted();
    const rows = await after(db, clinicId, cursor);
    if (rows.length === 0) break;
    for (const row of rows) {
      const problem = problemOf(row);
      if (problem !== null) yield { part: "entries", id: row.id, problem };
    }
    cursor = Number(rows.at(-1)!.cursor);
    done += rows.length;
    onProgress?.(done, Number(entries));
  }
  yield* uselessCorrections(db, clinicId);
}

function after(db: Db, clinicId: string, cursor: number): Promise<Row[]> {
  return db
    .selectFrom("entry")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("cursor", ">", cursor)
    .orderBy("cursor")
    .limit(entriesALook)
    .execute();
}

function problemOf(row: Row): string | null {
  const read = asWritten(row);
  if (read === null) return "It holds something that is not JSON.";
  const { entry, faults } = checkEntry(read);
  if (faults)
    return `It cannot be read: ${faults.map(({ path, problem }) => `${path || "it"} ${problem}`).join("; ")}.`;
  if (sortMs(entry.at) !== Number(row.at_ms)) return "It stands in the order of another time than its own.";
  return null;
}

function asWritten(row: Row): unknown {
  try {
    return {
      id: row.id,
      clinicId: row.clinic_id,
      personId: row.person_id,
      stomaId: row.stoma_id,
      kind: row.kind,
      schemaVersion: Number(row.schema_version),
      at: JSON.parse(row.at),
      recordedAt: row.recorded_at,
      by: JSON.parse(row.by),
      ...(row.reported_by === null ? {} : { reportedBy: row.reported_by }),
      ...(row.corrects_id === null ? {} : { corrects: { id: row.corrects_id, as: row.corrects_as } }),
      ...(row.reason === null ? {} : { reason: row.reason }),
      body: JSON.parse(row.body),
    };
  } catch {
    return null;
  }
}

async function* uselessCorrections(db: Db, clinicId: string): AsyncGenerator<Finding> {
  const rows = await db
    .selectFrom("entry as later")
    .leftJoin("entry as first", (join) =>
      join.onRef("first.clinic_id", "=", "later.clinic_id").onRef("first.id", "=", "later.corrects_id"),
    )
    .select("later.id")
    .where("later.clinic_id", "=", clinicId)
    .where("later.corrects_id", "is not", null)
    .where("first.id", "is", null)
    .execute();
  for (const { id } of rows) {
    yield { part: "entries", id, problem: "It corrects an entry that is not in the record." };
  }
}
