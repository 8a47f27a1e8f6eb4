import { type Kysely, sql } from "kysely";
import { folded } from "../projection/rows.ts";
import { personFromRow, stomaFromRow } from "./rows.ts";
import type { RecordTables } from "./schema.ts";
import type { PeoplePage } from "./store.ts";

/** A page of a clinic's people in the order of their names, of those whose name or record number holds every word. */
export async function peoplePage(
  db: Kysely<RecordTables>,
  clinicId: string,
  { text, after, limit }: { text: string; after: string | null; limit: number },
): Promise<PeoplePage> {
  let query = db.selectFrom("person_row").selectAll().where("clinic_id", "=", clinicId);
  for (const word of folded(text).split(/\s+/).filter(Boolean)) {
    // Engines differ in what escapes a wildcard when nothing is said.
    query = query.where(sql<boolean>`search_text like ${`%${literal(word)}%`} escape '!'`);
  }
  if (after !== null) {
    const [name = "", id = ""] = JSON.parse(after) as string[];
    query = query.where(sql<boolean>`(search_text, person_id) > (${name}, ${id})`);
  }
  const rows = await query
    .orderBy("search_text")
    .orderBy("person_id")
    .limit(limit + 1)
    .execute();
  const page = rows.slice(0, limit);
  const last = page.at(-1);
  const stomas = await stomasOf(
    db,
    clinicId,
    page.map((row) => row.person_id),
  );
  return {
    people: page.map((row) => ({
      ...personFromRow(row),
      stomas: stomas.filter(({ personId }) => personId === row.person_id),
    })),
    next: rows.length > limit && last ? JSON.stringify([last.search_text, last.person_id]) : null,
  };
}

/** Wildcards mean nothing to who searches. */
function literal(word: string): string {
  return word.replace(/[%_]/g, "").replace(/!/g, "!!");
}

async function stomasOf(db: Kysely<RecordTables>, clinicId: string, personIds: string[]) {
  if (personIds.length === 0) return [];
  const rows = await db
    .selectFrom("stoma_row")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("person_id", "in", personIds)
    .execute();
  return rows.map(stomaFromRow).sort((a, b) => (a.stomaId < b.stomaId ? -1 : 1));
}
