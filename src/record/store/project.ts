import type { Insertable, Kysely } from "kysely";
import type { Entry, StoredEntry } from "../entry/index.ts";
import { type KnownGaps, projectPerson } from "../projection/rows.ts";
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
  knownGaps?: KnownGaps,
): { person: Rows<"person_row"> | null; stomas: Rows<"stoma_row">[]; wears: Rows<"wear_row">[] } {
  const { person, stomas, wears } = projectPerson(entries, knownGaps) ?? nobody;
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
  const stomasBefore = await stomasOf(trx, clinicId, personId);
  const knownGaps = new Map(
    stomasBefore.flatMap((stoma) => (stoma.gapOf ? [[stoma.gapOf, stoma] as const] : [])),
  );
  const { person, stomas, wears } = rowsOfPerson(clinicId, rows.map(entryFromRow), knownGaps);
  const before = await trx
    .deleteFrom("person_row")
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .returning("standing")
    .executeTakeFirst();
  if (person) await trx.insertInto("person_row").values(person).execute();
  const gone = stomasBefore.filter(({ stomaId }) => !stomas.some((row) => row.stoma_id === stomaId));
  await writeStomas(trx, clinicId, stomas, gone);
  await writeWears(trx, clinicId, personId, wears);
  const isActive = person?.standing === "active";
  return {
    people: Number(person !== null) - Number(before !== undefined),
    active: Number(isActive) - Number(before?.standing === "active"),
  };
}

/** The stomas that the lists have of a person, with the gaps that were measured. */
async function stomasOf(trx: Kysely<RecordTables>, clinicId: string, personId: string) {
  const rows = await trx
    .selectFrom("stoma_row")
    .select(["stoma_id", "gap_of", "widest_gap_mm", "narrowest_gap_mm", "widest_at_hour"])
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .execute();
  return rows.map((row) => ({
    stomaId: row.stoma_id,
    gapOf: row.gap_of,
    widestGapMm: row.widest_gap_mm,
    narrowestGapMm: row.narrowest_gap_mm,
    widestAtHour: row.widest_at_hour,
  }));
}

/** Facts are written over; a fit that is there is kept, as one that is to be made again. */
async function writeStomas(
  trx: Kysely<RecordTables>,
  clinicId: string,
  stomas: Rows<"stoma_row">[],
  gone: readonly { stomaId: string }[],
): Promise<void> {
  for (const { stomaId } of gone) {
    await trx
      .deleteFrom("stoma_row")
      .where("clinic_id", "=", clinicId)
      .where("stoma_id", "=", stomaId)
      .execute();
  }
  const [first] = stomas;
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
