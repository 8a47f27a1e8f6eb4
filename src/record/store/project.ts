import type { Insertable, Kysely } from "kysely";
import type { Entry } from "../entry/index.ts";
import { type PersonProjection, projectPerson } from "../projection/rows.ts";
import { entryFromRow, personToRow, stomaToRow, wearToRow } from "./rows.ts";
import type { RecordTables } from "./schema.ts";
import type { Progress } from "./store.ts";

/** Makes the projections of everyone whom these entries are about, inside the caller's transaction. */
export async function projectPeople(trx: Kysely<RecordTables>, entries: readonly Entry[]): Promise<void> {
  const touched = new Map<string, string>();
  for (const { clinicId, personId } of entries) if (personId) touched.set(personId, clinicId);
  for (const [personId, clinicId] of touched) await projectOne(trx, clinicId, personId);
}

/** Empties every projection and makes it anew from the entries. */
export async function rebuildProjections(
  trx: Kysely<RecordTables>,
  { onProgress, signal }: { onProgress?: Progress; signal?: AbortSignal },
): Promise<{ people: number; entries: number }> {
  for (const table of ["person_row", "stoma_row", "wear_row", "fit_row"] as const) {
    await trx.deleteFrom(table).execute();
  }
  const people = await trx
    .selectFrom("entry")
    .select(["clinic_id", "person_id"])
    .distinct()
    .where("person_id", "is not", null)
    .execute();
  let done = 0;
  for (const { clinic_id, person_id } of people) {
    signal?.throwIfAborted();
    await projectOne(trx, clinic_id, person_id!);
    done += 1;
    onProgress?.(done, people.length);
  }
  const { entries } = await trx
    .selectFrom("entry")
    .select(({ fn }) => fn.countAll<number>().as("entries"))
    .executeTakeFirstOrThrow();
  return { people: people.length, entries: Number(entries) };
}

async function projectOne(trx: Kysely<RecordTables>, clinicId: string, personId: string): Promise<void> {
  const rows = await trx
    .selectFrom("entry")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .orderBy("cursor")
    .execute();
  const { person, stomas, wears } = projectPerson(rows.map(entryFromRow)) ?? nobody;
  await trx.deleteFrom("person_row").where("person_id", "=", personId).execute();
  if (person) await trx.insertInto("person_row").values(personToRow(clinicId, person)).execute();
  await writeStomas(trx, clinicId, personId, stomas);
  await writeWears(trx, clinicId, personId, wears);
}

/** What is left of a person who was taken back. */
const nobody = { person: null, stomas: [], wears: [] };

async function writeStomas(
  trx: Kysely<RecordTables>,
  clinicId: string,
  personId: string,
  stomas: PersonProjection["stomas"],
): Promise<void> {
  await trx.deleteFrom("stoma_row").where("person_id", "=", personId).execute();
  const gone = trx.deleteFrom("fit_row").where("clinic_id", "=", clinicId).where("person_id", "=", personId);
  if (stomas.length === 0) {
    await gone.execute();
    return;
  }
  await gone
    .where(
      "stoma_id",
      "not in",
      stomas.map(({ stomaId }) => stomaId),
    )
    .execute();
  await trx
    .insertInto("stoma_row")
    .values(stomas.map((stoma) => stomaToRow(clinicId, stoma)))
    .execute();
  for (const { stomaId } of stomas) {
    await trx
      .insertInto("fit_row")
      .values({
        clinic_id: clinicId,
        stoma_id: stomaId,
        person_id: personId,
        stale: 1,
        fits_until_on: null,
        fits_until_lower_on: null,
        fits_until_upper_on: null,
        program_version: "",
        protocol_version: 0,
      })
      .onConflict((conflict) => conflict.column("stoma_id").doUpdateSet({ stale: 1 }))
      .execute();
  }
}

/** Only what differs is written: a long log must not make each new change dearer. */
async function writeWears(
  trx: Kysely<RecordTables>,
  clinicId: string,
  personId: string,
  wears: PersonProjection["wears"],
): Promise<void> {
  const before = await trx
    .selectFrom("wear_row")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .execute();
  const known = new Map(before.map((row) => [row.wear_id, row]));
  const kept = new Set<string>();
  const written = wears
    .map((wear) => wearToRow(clinicId, wear))
    .filter((row) => {
      const same = isSameRow(row, known.get(row.wear_id));
      if (same) kept.add(row.wear_id);
      return !same;
    });
  const gone = before.map((row) => row.wear_id).filter((id) => !kept.has(id));
  const atOnce = 500;
  for (let from = 0; from < gone.length; from += atOnce) {
    await trx
      .deleteFrom("wear_row")
      .where("wear_id", "in", gone.slice(from, from + atOnce))
      .execute();
  }
  for (let from = 0; from < written.length; from += atOnce) {
    await trx
      .insertInto("wear_row")
      .values(written.slice(from, from + atOnce))
      .execute();
  }
}

type WearColumns = Insertable<RecordTables["wear_row"]>;

function isSameRow(row: WearColumns, other: WearColumns | undefined): boolean {
  if (!other) return false;
  return (Object.keys(row) as (keyof WearColumns)[]).every((column) => row[column] === other[column]);
}
