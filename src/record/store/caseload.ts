import type { Kysely } from "kysely";
import { fitFromRow, personFromRow, stomaFromRow, wearFromRow } from "./rows.ts";
import type { RecordTables } from "./schema.ts";
import type { CaseloadLimits, CaseloadRow } from "./store.ts";

/** Stomas that may give a reason today, each found by a range scan; verdicts are made by the domain. */
export async function caseloadRows(
  db: Kysely<RecordTables>,
  clinicId: string,
  limits: CaseloadLimits,
): Promise<CaseloadRow[]> {
  const active = () =>
    db
      .selectFrom("stoma_row")
      .select("stoma_id")
      .where("clinic_id", "=", clinicId)
      .where("standing", "=", "active");
  const found = await Promise.all([
    active()
      .where("measure_from", "<=", limits.newMeasuredBy)
      .where("clock_start_on", ">=", limits.newSince)
      .execute(),
    active().where("measure_from", "<=", limits.settledMeasuredBy).execute(),
    active().where("widest_gap_mm", ">", limits.maxGapMm).execute(),
    active().where("narrowest_gap_mm", "<", 0).execute(),
    db
      .selectFrom("fit_row")
      .select("stoma_id")
      .where("clinic_id", "=", clinicId)
      .where("fits_until_on", "<=", limits.today)
      .execute(),
    db
      .selectFrom("wear_row")
      .select("stoma_id")
      .distinct()
      .where("clinic_id", "=", clinicId)
      .where("ended_ms", ">=", limits.wearsSinceMs)
      .where("why", "!=", "planned")
      .execute(),
  ]);
  const ids = [...new Set(found.flat().map((row) => row.stoma_id))];
  const rows: CaseloadRow[] = [];
  const atOnce = 500;
  for (let from = 0; from < ids.length; from += atOnce) {
    rows.push(...(await withFacts(db, clinicId, ids.slice(from, from + atOnce), limits.wearsSinceMs)));
  }
  return rows;
}

async function withFacts(
  db: Kysely<RecordTables>,
  clinicId: string,
  ids: string[],
  wearsSinceMs: number,
): Promise<CaseloadRow[]> {
  const stomas = await db
    .selectFrom("stoma_row")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("stoma_id", "in", ids)
    .where("standing", "=", "active")
    .execute();
  const personIds = [...new Set(stomas.map((row) => row.person_id))];
  if (personIds.length === 0) return [];
  const [people, fits, wears] = await Promise.all([
    db.selectFrom("person_row").selectAll().where("person_id", "in", personIds).execute(),
    db.selectFrom("fit_row").selectAll().where("stoma_id", "in", ids).execute(),
    db
      .selectFrom("wear_row")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("stoma_id", "in", ids)
      .where("ended_ms", ">=", wearsSinceMs)
      .orderBy("ended_ms")
      .execute(),
  ]);
  const personById = new Map(people.map((row) => [row.person_id, personFromRow(row)]));
  const fitById = new Map(fits.map((row) => [row.stoma_id, fitFromRow(row)]));
  const wearsById = new Map<string, CaseloadRow["wears"]>();
  for (const wear of wears.map(wearFromRow)) {
    wearsById.set(wear.stomaId, [...(wearsById.get(wear.stomaId) ?? []), wear]);
  }
  return stomas.flatMap((row) => {
    const person = personById.get(row.person_id);
    if (!person) return [];
    const stoma = stomaFromRow(row);
    return [
      { person, stoma, fit: fitById.get(row.stoma_id) ?? null, wears: wearsById.get(row.stoma_id) ?? [] },
    ];
  });
}
