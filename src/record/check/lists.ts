import type { Kysely } from "kysely";
import { programVersion } from "../programVersion.ts";
import { fitOf } from "../projection/index.ts";
import type { Progress } from "../store/index.ts";
import { rowsOfPerson } from "../store/project.ts";
import { entryFromRow } from "../store/rows.ts";
import type { RecordTables } from "../store/schema.ts";
import { type ClinicStory, clinicStory, type PersonStory, personStory } from "../story/index.ts";
import type { Finding } from "./finding.ts";

type Db = Kysely<RecordTables>;
type Row = Record<string, unknown>;

/**
 * Whether the lists are what a rebuild would make of the entries: each person's rows are made anew and compared, and
 * nothing is written. Healing fits that are marked as to be made again are left out.
 */
export async function* checkLists(
  db: Db,
  clinicId: string,
  { onProgress, signal }: { onProgress?: Progress; signal?: AbortSignal } = {},
): AsyncGenerator<Finding> {
  const people = await peopleOf(db, clinicId);
  const clinic = await clinicOf(db, clinicId);
  const counts = { people: 0, active: 0 };
  for (const [index, personId] of people.entries()) {
    signal?.throwIfAborted();
    const differing = await differencesOf(db, clinicId, personId, clinic);
    if (typeof differing === "string") {
      yield { part: "entries", id: personId, problem: differing };
    } else {
      counts.people += differing.people;
      counts.active += differing.active;
      if (differing.in.length > 0) {
        yield lists(personId, `The lists differ from the entries: ${differing.in.join(", ")}.`);
      }
    }
    onProgress?.(index + 1, people.length);
  }
  const kept = await db
    .selectFrom("clinic_row")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .executeTakeFirst();
  if (Number(kept?.people ?? 0) !== counts.people || Number(kept?.active ?? 0) !== counts.active) {
    yield lists(clinicId, "The clinic's counts of people differ from the entries.");
  }
}

async function clinicOf(db: Db, clinicId: string): Promise<ClinicStory | null> {
  try {
    return clinicStory(await entriesOf(db, clinicId, null));
  } catch {
    // Its entries cannot be read, which was found among the entries already.
    return null;
  }
}

/** In what a person's lists differ from their entries; a sentence where the entries cannot be read. */
async function differencesOf(
  db: Db,
  clinicId: string,
  personId: string,
  clinic: ClinicStory | null,
): Promise<{ in: string[]; people: number; active: number } | string> {
  const found = await rowsIn(db, clinicId, personId);
  const told = await toldFrom(db, clinicId, personId);
  if (!told) return "The entries of this person cannot be read, so that no list can be made of them.";
  const { rows, story } = told;
  const differing = {
    "the person": !sameRows(rows.person ? [rows.person] : [], found.people),
    stomas: !sameRows(rows.stomas.map(withoutFit), found.stomas.map(withoutFit)),
    wears: !sameRows(rows.wears, found.wears),
    "healing curves": clinic !== null && story !== null && !fitsAgree(found.stomas, story, clinic),
  };
  return {
    in: Object.entries(differing).flatMap(([what, differs]) => (differs ? [what] : [])),
    people: rows.person ? 1 : 0,
    active: rows.person?.standing === "active" ? 1 : 0,
  };
}

async function toldFrom(db: Db, clinicId: string, personId: string) {
  try {
    const entries = await entriesOf(db, clinicId, personId);
    return { rows: rowsOfPerson(clinicId, entries), story: personStory(entries) };
  } catch {
    return null;
  }
}

function lists(id: string, problem: string): Finding {
  return { part: "lists", id, problem };
}

/** Everyone with entries, and everyone on a list: a person on a list without entries differs too. */
async function peopleOf(db: Db, clinicId: string): Promise<string[]> {
  const found = new Set<string>();
  for (const table of ["entry", "person_row", "stoma_row", "wear_row"] as const) {
    const rows = await db
      .selectFrom(table)
      .select("person_id")
      .distinct()
      .where("clinic_id", "=", clinicId)
      .where("person_id", "is not", null)
      .execute();
    for (const { person_id } of rows) found.add(person_id!);
  }
  return [...found].sort();
}

async function entriesOf(db: Db, clinicId: string, personId: string | null) {
  const rows = await db
    .selectFrom("entry")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("person_id", personId === null ? "is" : "=", personId)
    .orderBy("cursor")
    .execute();
  return rows.map(entryFromRow);
}

async function rowsIn(db: Db, clinicId: string, personId: string) {
  const from = (table: "person_row" | "stoma_row" | "wear_row") =>
    db
      .selectFrom(table)
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("person_id", "=", personId)
      .execute() as Promise<Row[]>;
  return { people: await from("person_row"), stomas: await from("stoma_row"), wears: await from("wear_row") };
}

function withoutFit(row: object): Row {
  return Object.fromEntries(Object.entries(row).filter(([column]) => !column.startsWith("fit")));
}

/** The same rows, in whatever order; PostgreSQL gives whole numbers as text. */
function sameRows(a: readonly object[], b: readonly object[]): boolean {
  return inOrder(a) === inOrder(b);
}

function inOrder(rows: readonly object[]): string {
  const asText = rows.map((row) =>
    JSON.stringify(
      Object.entries(row)
        .map(([column, value]) => [column, value === null ? null : String(value)])
        .sort(([x], [y]) => (x! < y! ? -1 : 1)),
    ),
  );
  return asText.sort().join("\n");
}

/** Fits that count as made by this program under the protocol in force are made again and compared. */
function fitsAgree(stomas: readonly Row[], { stomas: told }: PersonStory, clinic: ClinicStory): boolean {
  return stomas.every((row) => {
    const isCurrent =
      Number(row.fit_stale) === 0 &&
      row.fit_program === programVersion &&
      Number(row.fit_protocol) === clinic.protocolVersion;
    if (!isCurrent) return true;
    const stoma = told.find(({ stomaId }) => stomaId === row.stoma_id);
    if (!stoma) return false;
    const fit = fitOf(stoma, clinic);
    return (
      fit.fitsUntilOn === row.fits_until_on &&
      fit.fitsUntilLowerOn === row.fits_until_lower_on &&
      fit.fitsUntilUpperOn === row.fits_until_upper_on
    );
  });
}
