import type { Kysely } from "kysely";
import { columnTypes } from "./columns.ts";

/** Photographs, sealed each under a key of its own. The large part stands last, so that lists never read it. */
export async function up(db: Kysely<unknown>): Promise<void> {
  const { ordered, bytes } = columnTypes(db);
  await db.schema
    .createTable("photo")
    .addColumn("clinic_id", ordered, (column) => column.notNull())
    .addColumn("photo_id", ordered, (column) => column.notNull())
    .addColumn("person_id", ordered, (column) => column.notNull())
    .addColumn("stoma_id", "text")
    .addColumn("entry_id", "text")
    .addColumn("taken_ms", "bigint")
    .addColumn("kept_ms", "bigint", (column) => column.notNull())
    .addColumn("width_px", "bigint", (column) => column.notNull())
    .addColumn("height_px", "bigint", (column) => column.notNull())
    .addColumn("sealed_for", ordered, (column) => column.notNull())
    .addColumn("sealed_key", bytes, (column) => column.notNull())
    .addColumn("thumbnail", bytes, (column) => column.notNull())
    .addColumn("picture", bytes, (column) => column.notNull())
    .addPrimaryKeyConstraint("photo_key", ["clinic_id", "photo_id"])
    .execute();
  await index(db, "photo_by_person", ["clinic_id", "person_id", "photo_id"]);
  await index(db, "photo_by_seal", ["sealed_for"]);
}

async function index(db: Kysely<unknown>, name: string, columns: string[]): Promise<void> {
  await db.schema.createIndex(name).on("photo").columns(columns).execute();
}
