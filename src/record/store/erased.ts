import type { Kysely } from "kysely";
import type { RecordTables } from "./schema.ts";

/** Entries about people who were erased: nothing is written about them again. */
export class ErasedError extends Error {
  readonly code = "erased";
  readonly personIds: readonly string[];
  constructor(personIds: readonly string[]) {
    super("this person was erased on lawful request");
    this.name = "ErasedError";
    this.personIds = personIds;
  }
}

/** Those of these people who were erased from a clinic's record. */
export async function erasedAmong(
  db: Kysely<RecordTables>,
  clinicId: string,
  personIds: readonly string[],
): Promise<string[]> {
  const ids = [...new Set(personIds)];
  const found: string[] = [];
  const atOnce = 500;
  for (let from = 0; from < ids.length; from += atOnce) {
    const rows = await db
      .selectFrom("tombstone")
      .select("person_id")
      .where("clinic_id", "=", clinicId)
      .where("person_id", "in", ids.slice(from, from + atOnce))
      .execute();
    found.push(...rows.map((row) => row.person_id));
  }
  return found;
}

/** @throws {ErasedError} where one of these is about somebody who was erased */
export async function refuseErased(
  trx: Kysely<RecordTables>,
  entries: readonly { clinicId: string; personId: string | null }[],
): Promise<void> {
  const byClinic = new Map<string, string[]>();
  for (const { clinicId, personId } of entries) {
    if (personId !== null) byClinic.set(clinicId, [...(byClinic.get(clinicId) ?? []), personId]);
  }
  for (const [clinicId, personIds] of byClinic) {
    const erased = await erasedAmong(trx, clinicId, personIds);
    if (erased.length > 0) throw new ErasedError(erased);
  }
}
