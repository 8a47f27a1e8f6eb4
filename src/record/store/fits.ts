import { type Kysely, sql } from "kysely";
import { lockClinic } from "./lock.ts";
import type { RecordTables } from "./schema.ts";
import type { FitRow } from "./store.ts";
import { transact } from "./transact.ts";

/** Stomas whose fit is older than their readings, or made by another program or protocol. */
export async function staleFitsIn(
  db: Kysely<RecordTables>,
  clinicId: string,
  { programVersion, protocolVersion }: Pick<FitRow, "programVersion" | "protocolVersion">,
  limit: number,
): Promise<{ personId: string; stomaId: string }[]> {
  const fits = (stale: number) =>
    db
      .selectFrom("stoma_row")
      .select(["person_id", "stoma_id"])
      .where("clinic_id", "=", clinicId)
      .where("fit_stale", "=", stale);
  const samePro = () => fits(0).where("fit_program", "=", programVersion);
  // Each is a range scan of one index: "unequal" would read every fit of the clinic at each look.
  const scans = [
    fits(1),
    fits(0).where("fit_program", "<", programVersion),
    fits(0).where("fit_program", ">", programVersion),
    samePro().where("fit_protocol", "<", protocolVersion),
    samePro().where("fit_protocol", ">", protocolVersion),
  ];
  const found: { personId: string; stomaId: string }[] = [];
  for (const scan of scans) {
    const left = limit - found.length;
    if (left <= 0) break;
    for (const row of await scan.limit(left).execute()) {
      found.push({ personId: row.person_id, stomaId: row.stoma_id });
    }
  }
  return found;
}

/** Keeps a fit that was made from a person's entries up to a cursor; it stays stale where there are later ones. */
export async function keepFit(
  db: Kysely<RecordTables>,
  clinicId: string,
  fit: FitRow,
  readThrough: number,
): Promise<void> {
  // Under the lock: an entry that is just being written is either seen here or marks the fit as stale afterwards.
  const keep = async (trx: Kysely<RecordTables>) => {
    await lockClinic(trx, clinicId);
    await trx
      .updateTable("stoma_row")
      .set({
        fit_stale: sql<number>`case when exists (select 1 from entry where entry.clinic_id = stoma_row.clinic_id
          and entry.person_id = stoma_row.person_id and entry.cursor > ${readThrough}) then 1 else 0 end`,
        fits_until_on: fit.fitsUntilOn,
        fits_until_lower_on: fit.fitsUntilLowerOn,
        fits_until_upper_on: fit.fitsUntilUpperOn,
        fit_program: fit.programVersion,
        fit_protocol: fit.protocolVersion,
      })
      .where("clinic_id", "=", clinicId)
      .where("stoma_id", "=", fit.stomaId)
      .execute();
  };
  await transact(db, keep, { repeatable: true });
}
