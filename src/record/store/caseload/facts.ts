import type { Kysely } from "kysely";
import { fitFromRow, personFromRow, stomaFromRow, wearFromRow } from "../rows.ts";
import type { RecordTables } from "../schema.ts";
import type { CaseloadRow } from "../store.ts";

/** What is known of some stomas and of their wears since then; of those that are not active, nothing. */
export async function caseloadFactsIn(
  db: Kysely<RecordTables>,
  clinicId: string,
  stomaIds: readonly string[],
  wearsSinceMs: number,
): Promise<CaseloadRow[]> {
  if (stomaIds.length === 0) return [];
  const stomas = await db
    .selectFrom("stoma_row")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("stoma_id", "in", stomaIds)
    .where("standing", "=", "active")
    .execute();
  if (stomas.length === 0) return [];
  const personIds = [...new Set(stomas.map((row) => row.person_id))];
  const [people, wears] = await Promise.all([
    db
      .selectFrom("person_row")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("person_id", "in", personIds)
      .execute(),
    db
      .selectFrom("wear_row")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("stoma_id", "in", stomaIds)
      .where("ended_ms", ">=", wearsSinceMs)
      .orderBy("ended_ms")
      .orderBy("wear_id")
      .execute(),
  ]);
  const personById = new Map(people.map((row) => [row.person_id, personFromRow(row)]));
  const wearsById = new Map<string, CaseloadRow["wears"]>(stomas.map((row) => [row.stoma_id, []]));
  for (const wear of wears) wearsById.get(wear.stoma_id)?.push(wearFromRow(wear));
  return stomas.flatMap((row) => {
    const person = personById.get(row.person_id);
    if (!person) return [];
    return [
      { person, stoma: stomaFromRow(row), fit: fitFromRow(row), wears: wearsById.get(row.stoma_id) ?? [] },
    ];
  });
}
