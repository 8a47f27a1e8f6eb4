import { type Kysely, sql } from "kysely";

/** The record and its projections. Entries can be added and, by lawful erasure only, removed; never changed. */
export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable("entry")
    .addColumn("cursor", "integer", (column) => column.primaryKey().autoIncrement())
    .addColumn("id", "text", (column) => column.notNull().unique())
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("person_id", "text")
    .addColumn("stoma_id", "text")
    .addColumn("kind", "text", (column) => column.notNull())
    .addColumn("schema_version", "integer", (column) => column.notNull())
    .addColumn("at_ms", "integer", (column) => column.notNull())
    .addColumn("at", "text", (column) => column.notNull())
    .addColumn("recorded_at", "text", (column) => column.notNull())
    .addColumn("by", "text", (column) => column.notNull())
    .addColumn("reported_by", "text")
    .addColumn("corrects_id", "text")
    .addColumn("corrects_as", "text")
    .addColumn("reason", "text")
    .addColumn("body", "text", (column) => column.notNull())
    .execute();
  await index(db, "entry", "entry_by_person", ["clinic_id", "person_id", "cursor"]);
  await index(db, "entry", "entry_by_correction", ["corrects_id"]);
  await sql`create trigger entry_is_append_only before update on entry
    begin select raise(abort, 'entries are never changed, only corrected by another entry'); end`.execute(db);

  await db.schema
    .createTable("person_row")
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("person_id", "text", (column) => column.primaryKey())
    .addColumn("name", "text", (column) => column.notNull())
    .addColumn("search_text", "text", (column) => column.notNull())
    .addColumn("birth_date", "text")
    .addColumn("identifier", "text")
    .addColumn("standing", "text", (column) => column.notNull())
    .addColumn("last_entry_ms", "integer", (column) => column.notNull())
    .execute();
  await index(db, "person_row", "person_by_name", ["clinic_id", "search_text", "person_id"]);

  await db.schema
    .createTable("stoma_row")
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("stoma_id", "text", (column) => column.primaryKey())
    .addColumn("person_id", "text", (column) => column.notNull())
    .addColumn("type", "text", (column) => column.notNull())
    .addColumn("construction", "text", (column) => column.notNull())
    .addColumn("label", "text")
    .addColumn("standing", "text", (column) => column.notNull())
    .addColumn("surgery_on", "text")
    .addColumn("clock_start_on", "text", (column) => column.notNull())
    .addColumn("last_measured_on", "text")
    .addColumn("measure_from", "text", (column) => column.notNull())
    .addColumn("last_longest_mm", "real")
    .addColumn("last_narrowest_mm", "real")
    .addColumn("opening_since", "text")
    .addColumn("widest_gap_mm", "real")
    .addColumn("narrowest_gap_mm", "real")
    .addColumn("widest_at_hour", "integer")
    .addColumn("system_name", "text")
    .execute();
  await index(db, "stoma_row", "stoma_by_person", ["clinic_id", "person_id"]);
  await index(db, "stoma_row", "stoma_by_measuring", [
    "clinic_id",
    "standing",
    "measure_from",
    "clock_start_on",
  ]);
  await index(db, "stoma_row", "stoma_by_widest_gap", ["clinic_id", "standing", "widest_gap_mm"]);
  await index(db, "stoma_row", "stoma_by_narrowest_gap", ["clinic_id", "standing", "narrowest_gap_mm"]);

  await db.schema
    .createTable("wear_row")
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("wear_id", "text", (column) => column.primaryKey())
    .addColumn("stoma_id", "text", (column) => column.notNull())
    .addColumn("person_id", "text", (column) => column.notNull())
    .addColumn("ended_ms", "integer", (column) => column.notNull())
    .addColumn("hours", "real", (column) => column.notNull())
    .addColumn("why", "text", (column) => column.notNull())
    .addColumn("closure", "text")
    .addColumn("planned_interval_days", "real")
    .execute();
  await index(db, "wear_row", "wear_by_end", ["clinic_id", "ended_ms"]);
  await index(db, "wear_row", "wear_by_stoma", ["clinic_id", "stoma_id", "ended_ms"]);
  await index(db, "wear_row", "wear_by_person", ["clinic_id", "person_id"]);

  await db.schema
    .createTable("fit_row")
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("stoma_id", "text", (column) => column.primaryKey())
    .addColumn("person_id", "text", (column) => column.notNull())
    .addColumn("stale", "integer", (column) => column.notNull())
    .addColumn("fits_until_on", "text")
    .addColumn("fits_until_lower_on", "text")
    .addColumn("fits_until_upper_on", "text")
    .addColumn("program_version", "text", (column) => column.notNull())
    .addColumn("protocol_version", "integer", (column) => column.notNull())
    .execute();
  await index(db, "fit_row", "fit_by_end", ["clinic_id", "fits_until_on"]);
  await index(db, "fit_row", "fit_by_staleness", ["clinic_id", "stale"]);
  await index(db, "fit_row", "fit_by_program", ["clinic_id", "program_version"]);
  await index(db, "fit_row", "fit_by_protocol", ["clinic_id", "protocol_version"]);
  await index(db, "fit_row", "fit_by_person", ["clinic_id", "person_id"]);

  await db.schema
    .createTable("mark")
    .addColumn("name", "text", (column) => column.primaryKey())
    .addColumn("value", "text", (column) => column.notNull())
    .execute();
}

async function index(db: Kysely<unknown>, table: string, name: string, columns: string[]): Promise<void> {
  await db.schema.createIndex(name).on(table).columns(columns).execute();
}
