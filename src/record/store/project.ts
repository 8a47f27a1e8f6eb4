import type { Kysely, Selectable } from "kysely";
import type { Entry, StoredEntry } from "../entry/index.ts";
import { type KnownGaps, projectPerson } from "../projection/rows.ts";
import { unplannedPlaces } from "./places.ts";
import { keptRows, type PersonRows, writePerson, writeStomas, writeWears } from "./projected.ts";
import { entryFromRow, personToRow, stomaFromRow, stomaToRow, wearToRow } from "./rows.ts";
import type { RecordTables } from "./schema.ts";

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
): PersonRows {
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
  const entries = await trx
    .selectFrom("entry")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .orderBy("cursor")
    .execute();
  const before = await keptRows(trx, clinicId, personId);
  const rows = rowsOfPerson(clinicId, entries.map(entryFromRow), gapsIn(before.stomas));
  await writePerson(trx, before.person, rows.person);
  await writeStomas(trx, before.stomas, rows.stomas);
  await writeWears(trx, before.wears, rows.wears);
  return {
    people: Number(rows.person !== null) - Number(before.person !== null),
    active: Number(rows.person?.standing === "active") - Number(before.person?.standing === "active"),
  };
}

function gapsIn(stomas: readonly Selectable<RecordTables["stoma_row"]>[]): KnownGaps {
  const known = stomas.filter(({ gap_of }) => gap_of !== null);
  return new Map(known.map((row) => [row.gap_of!, stomaFromRow(row)]));
}
