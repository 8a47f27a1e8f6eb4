import type { Kysely, Transaction } from "kysely";
import type { Entry, StoredEntry } from "../entry/index.ts";
import { addToCounts } from "./counts.ts";
import { refuseErased } from "./erased.ts";
import { lockClinic } from "./lock.ts";
import { projectPeople } from "./project.ts";
import { entryFromRow, entryToRow } from "./rows.ts";
import type { RecordTables } from "./schema.ts";
import { type AppendOptions, ConflictError, MovedOnError } from "./store.ts";

/** Rows in one statement: well under every engine's limit of bound values. */
const batchSize = 500;

/**
 * Appends entries and updates what is derived from them, inside the caller's transaction.
 * @returns for every entry given, the one that is in the record
 * @throws {ConflictError}
 * @throws {ErasedError}
 * @throws {MovedOnError}
 */
export async function appendIn(
  trx: Transaction<RecordTables>,
  entries: readonly Entry[],
  { onProgress, restsOn }: Pick<AppendOptions, "onProgress" | "restsOn">,
): Promise<StoredEntry[]> {
  const known = new Map<string, StoredEntry>();
  const clinicIds = clinicsOf(entries);
  // In order, so that two that append to the same clinics never wait for each other.
  for (const clinicId of clinicIds) await lockClinic(trx, clinicId);
  const fresh: Entry[] = [];
  for (const clinicId of clinicIds) {
    fresh.push(
      ...(await freshOf(
        trx,
        clinicId,
        entries.filter((entry) => entry.clinicId === clinicId),
        known,
      )),
    );
  }
  await refuseErased(trx, fresh);
  if (restsOn && fresh.length > 0) await refuseMovedOn(trx, fresh[0]!.clinicId, restsOn);
  let written = 0;
  for (const batch of batches(fresh)) {
    const rows = await trx.insertInto("entry").values(batch.map(entryToRow)).returningAll().execute();
    for (const row of rows) known.set(keyOf(row.clinic_id, row.id), entryFromRow(row));
    written += batch.length;
    onProgress?.(written, fresh.length);
  }
  for (const clinicId of clinicIds) {
    const own = fresh.filter((entry) => entry.clinicId === clinicId);
    if (own.length === 0) continue;
    const more = await projectPeople(trx, clinicId, own);
    await addToCounts(trx, clinicId, { ...more, entries: own.length });
  }
  return entries.map((entry) => known.get(keyOf(entry.clinicId, entry.id))!);
}

export function clinicsOf(entries: readonly Entry[]): string[] {
  return [...new Set(entries.map(({ clinicId }) => clinicId))].sort();
}

/** An id is a clinic's own: whether another has it is nobody's to learn. */
function keyOf(clinicId: string, id: string): string {
  return `${clinicId} ${id}`;
}

/** Those that are not in the record yet, each once. */
async function freshOf(
  trx: Transaction<RecordTables>,
  clinicId: string,
  entries: readonly Entry[],
  known: Map<string, StoredEntry>,
): Promise<Entry[]> {
  for (const batch of batches(entries)) {
    const ids = batch.map(({ id }) => id);
    for (const entry of await entriesById(trx, clinicId, ids)) known.set(keyOf(clinicId, entry.id), entry);
  }
  const fresh: Entry[] = [];
  for (const entry of entries) {
    const existing = known.get(keyOf(clinicId, entry.id));
    if (existing && !sameContent(existing, entry)) throw new ConflictError("idReused", existing);
    if (existing) continue;
    fresh.push(entry);
    known.set(keyOf(clinicId, entry.id), { ...entry, cursor: 0 });
  }
  await refuseSecondCorrections(trx, clinicId, fresh);
  return fresh;
}

async function entriesById(trx: Kysely<RecordTables>, clinicId: string, ids: string[]) {
  const rows = await trx
    .selectFrom("entry")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("id", "in", ids)
    .execute();
  return rows.map(entryFromRow);
}

/** A second correction of one entry would silently win over the first: its writer must see the first. */
async function refuseSecondCorrections(
  trx: Kysely<RecordTables>,
  clinicId: string,
  fresh: readonly Entry[],
): Promise<void> {
  const targets = fresh.flatMap((entry) => (entry.corrects ? [entry.corrects.id] : []));
  for (const batch of batches(targets)) {
    const row = await trx
      .selectFrom("entry")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("corrects_id", "in", batch)
      .executeTakeFirst();
    if (row) throw new ConflictError("alreadyCorrected", entryFromRow(row));
  }
  const seen = new Map<string, Entry>();
  for (const entry of fresh) {
    if (!entry.corrects) continue;
    const earlier = seen.get(entry.corrects.id);
    if (earlier) throw new ConflictError("alreadyCorrected", { ...earlier, cursor: 0 });
    seen.set(entry.corrects.id, entry);
  }
}

async function refuseMovedOn(
  trx: Transaction<RecordTables>,
  clinicId: string,
  { personId, readThrough }: NonNullable<AppendOptions["restsOn"]>,
): Promise<void> {
  const later = await trx
    .selectFrom("entry")
    .select("cursor")
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .where("cursor", ">", readThrough)
    .limit(1)
    .executeTakeFirst();
  if (later) throw new MovedOnError();
}

/** Equal in what the writer wrote; the server's own stamps may differ when a request is sent twice. */
function sameContent(a: Entry, b: Entry): boolean {
  return contentOf(a) === contentOf(b);
}

function contentOf(entry: Entry): string {
  const { clinicId, personId, stomaId, kind, at, reportedBy, corrects, reason, body } = entry;
  return JSON.stringify(
    sorted({ clinicId, personId, stomaId, kind, at, reportedBy, corrects, reason, body }),
  );
}

/** The same value with object keys in order, so that equal content has equal JSON. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== "object") return value;
  const pairs = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(pairs.map(([key, inner]) => [key, sorted(inner)]));
}

function* batches<T>(items: readonly T[]): Generator<T[]> {
  for (let from = 0; from < items.length; from += batchSize) yield items.slice(from, from + batchSize);
}
