import type { Insertable, Kysely } from "kysely";
import type { Entry, StoredEntry } from "../entry/index.ts";
import { projectPerson } from "../projection/rows.ts";
import { unplannedPlaces } from "./places.ts";
import { entryFromRow, personToRow, stomaToRow, wearToRow } from "./rows.ts";
import type { RecordTables } from "./schema.ts";

type Rows<Table extends keyof RecordTables> = Insertable<RecordTables[Table]>;

/** How many more people there are, and how many more of them are active. */
export interface PeopleMore {
  people: number;
  active: number;
}

/** Makes the projections of everyone of a clinic whom these entries are about, inside the caller's transaction. */
export async function projectPeople(
  trx: Kysely<RecordTables>,
  clinicId: string,
  entries: readonly Entry[],
): Promise<PeopleMore> {
  const more = { people: 0, active: 0 };
  const touched = new Set(entries.flatMap(({ personId }) => (personId ? [personId] : [])));
  for (const personId of touched) {
    const { people, active } = await projectPersonIn(trx, clinicId, personId);
    more.people += people;
    more.active += active;
  }
  return more;
}

/** What is left of a person who was taken back. */
const nobody = { person: null, stomas: [], wears: [] };

/** The rows of one person as their entries make them; the fits of their stomas are yet to be made. */
export function rowsOfPerson(
  clinicId: string,
  entries: readonly StoredEntry[],
): { person: Rows<"person_row"> | null; stomas: Rows<"stoma_row">[]; wears: Rows<"wear_row">[] } {
  const { person, stomas, wears } = projectPerson(entries) ?? nobody;
  const of = { searchText: person?.searchText ?? "", isOnly: stomas.length === 1 };
  const places = unplannedPlaces(stomas, wears);
  return {
    person: person && personToRow(clinicId, person),
    stomas: stomas.map((stoma) => stomaToRow(clinicId, stoma, of)),
    wears: wears.map((wear) => wearToRow(clinicId, wear, places.get(wear.wearId) ?? null)),
  };
}

/** Makes the projections of one person anew from their entries. */
export async function projectPersonIn(
  trx: Kysely<RecordTables>,
  clinicId: string,
  personId: string,
): Promise<PeopleMore> {
  const rows = await trx
    .selectFrom("entry")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .orderBy("cursor")
    .execute();
  const { person, stomas, wears } = rowsOfPerson(clinicId, rows.map(entryFromRow));
  const before = await trx
    .deleteFrom("person_row")
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .returning("standing")
    .executeTakeFirst();
  if (person) await trx.insertInto("person_row").values(person).execute();
  await writeStomas(trx, clinicId, personId, stomas);
  await writeWears(trx, clinicId, personId, wears);
  const isActive = person?.standing === "active";
  return {
    people: Number(person !== null) - Number(before !== undefined),
    active: Number(isActive) - Number(before?.standing === "active"),
  };
}

/** Facts are written over; a fit that is there is kept, as one that is to be made again. */
async function writeStomas(
  trx: Kysely<RecordTables>,
  clinicId: string,
  personId: string,
  stomas: Rows<"stoma_row">[],
): Promise<void> {
  let gone = trx.deleteFrom("stoma_row").where("clinic_id", "=", clinicId).where("person_id", "=", personId);
  const [first] = stomas;
  if (first) {
    const kept = stomas.map((row) => row.stoma_id);
    gone = gone.where("stoma_id", "not in", kept);
  }
  await gone.execute();
  if (!first) return;
  const facts = (Object.keys(first) as (keyof Rows<"stoma_row">)[]).filter(
    (column) => !column.startsWith("fit") || column === "fit_stale",
  );
  await trx
    .insertInto("stoma_row")
    .values(stomas)
    .onConflict((conflict) =>
      conflict
        .columns(["clinic_id", "stoma_id"])
        .doUpdateSet(({ ref }) =>
          Object.fromEntries(facts.map((column) => [column, ref(`excluded.${column}`)])),
        ),
    )
    .execute();
}

/** Rows in one statement. */
const atOnce = 500;

/** Only what differs is written: a long log must not make each new change dearer. */
async function writeWears(
  trx: Kysely<RecordTables>,
  clinicId: string,
  personId: string,
  wears: Rows<"wear_row">[],
): Promise<void> {
  const before = await trx
    .selectFrom("wear_row")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .execute();
  const known = new Map(before.map((row) => [row.wear_id, row]));
  const written = wears.filter((row) => !isSameRow(row, known.get(row.wear_id)));
  const kept = new Set(wears.map((row) => row.wear_id));
  for (const row of written) kept.delete(row.wear_id);
  const gone = before.map((row) => row.wear_id).filter((id) => !kept.has(id));
  for (let from = 0; from < gone.length; from += atOnce) {
    await trx
      .deleteFrom("wear_row")
      .where("clinic_id", "=", clinicId)
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

function isSameRow(row: Rows<"wear_row">, other: Rows<"wear_row"> | undefined): boolean {
  if (!other) return false;
  return (Object.keys(row) as (keyof Rows<"wear_row">)[]).every((column) => row[column] === other[column]);
}
