import { type Kysely, sql } from "kysely";
import type { RecordTables } from "./schema.ts";

export interface Counts {
  people: number;
  active: number;
  entries: number;
}

/** Adds to what is kept of how many there are, inside the transaction that makes them more or fewer. */
export async function addToCounts(
  trx: Kysely<RecordTables>,
  clinicId: string,
  { people, active, entries }: Counts,
): Promise<void> {
  await trx
    .insertInto("clinic_row")
    .values({ clinic_id: clinicId, people, active, entries })
    .onConflict((conflict) =>
      conflict.column("clinic_id").doUpdateSet({
        people: sql`clinic_row.people + excluded.people`,
        active: sql`clinic_row.active + excluded.active`,
        entries: sql`clinic_row.entries + excluded.entries`,
      }),
    )
    .execute();
}

export async function countsOf(db: Kysely<RecordTables>, clinicId: string): Promise<Counts> {
  const row = await db
    .selectFrom("clinic_row")
    .select(["people", "active", "entries"])
    .where("clinic_id", "=", clinicId)
    .executeTakeFirst();
  return row ?? { people: 0, active: 0, entries: 0 };
}
