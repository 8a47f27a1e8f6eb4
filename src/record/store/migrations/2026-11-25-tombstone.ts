import type { Kysely } from "kysely";
import { columnTypes, refuse } from "./columns.ts";

/** Who was erased: only then does the engine let go of their entries. */
export async function up(db: Kysely<unknown>): Promise<void> {
  const { ordered } = columnTypes(db);
  await db.schema
    .createTable("tombstone")
    .addColumn("clinic_id", ordered, (column) => column.notNull())
    .addColumn("person_id", ordered, (column) => column.notNull())
    .addColumn("erased_ms", "bigint", (column) => column.notNull())
    .addColumn("account_id", "text")
    .addPrimaryKeyConstraint("tombstone_key", ["clinic_id", "person_id"])
    .execute();
  await refuse(db, "update", "tombstone", "a tombstone is never changed");
  await refuse(db, "delete", "tombstone", "a tombstone is never removed");

  const erased =
    "exists (select 1 from tombstone where tombstone.clinic_id = old.clinic_id and tombstone.person_id = old.person_id)";
  await refuse(db, "delete", "entry", "entries are removed only with a person who is erased", {
    when: `not ${erased}`,
  });
}
