import { type CreateTableBuilder, type Kysely, sql } from "kysely";
import { engineOf } from "../engine.ts";
import { columnTypes, refuse } from "./columns.ts";
import { expectLargeRecords } from "./expectations.ts";

/**
 * The record and its projections. Entries can be added and, by lawful erasure only, removed; never changed. An index
 * that finds by an id begins with it: one that began with the clinic could be taken for finding all of the clinic.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  await entries(db);
  await people(db);
  await stomas(db);
  await wears(db);
  await db.schema
    .createTable("clinic_row")
    .addColumn("clinic_id", columnTypes(db).ordered, (column) => column.primaryKey())
    .addColumn("people", "bigint", (column) => column.notNull())
    .addColumn("active", "bigint", (column) => column.notNull())
    .addColumn("entries", "bigint", (column) => column.notNull())
    .execute();
  await db.schema
    .createTable("mark")
    .addColumn("name", "text", (column) => column.primaryKey())
    .addColumn("value", "text", (column) => column.notNull())
    .execute();
  if (engineOf(db) === "sqlite") await expectLargeRecords(db);
}

/**
 * The cursor counts through every clinic of the database. PostgreSQL keeps each clinic's entries in a partition of
 * their own, so that there the clinic is part of every key; see docs/decisions/partition-by-clinic.md.
 */
async function entries(db: Kysely<unknown>): Promise<void> {
  const { ordered } = columnTypes(db);
  const isPostgres = engineOf(db) === "postgres";
  if (isPostgres) await sql`create sequence entry_cursor`.execute(db);
  const cursor: <T extends string>(table: CreateTableBuilder<T>) => CreateTableBuilder<T> = (table) =>
    isPostgres
      ? table
          .addColumn("cursor", "bigint", (column) => column.notNull().defaultTo(sql`nextval('entry_cursor')`))
          .addPrimaryKeyConstraint("entry_key", ["clinic_id", "cursor"] as never)
          .modifyEnd(sql`partition by list (clinic_id)`)
      : table.addColumn("cursor", "integer", (column) => column.primaryKey().autoIncrement());
  await cursor(db.schema.createTable("entry"))
    .addColumn("id", ordered, (column) => column.notNull())
    .addColumn("clinic_id", ordered, (column) => column.notNull())
    .addColumn("person_id", ordered)
    .addColumn("stoma_id", ordered)
    .addColumn("kind", "text", (column) => column.notNull())
    .addColumn("schema_version", "bigint", (column) => column.notNull())
    .addColumn("at_ms", "bigint", (column) => column.notNull())
    .addColumn("at", "text", (column) => column.notNull())
    .addColumn("recorded_at", "text", (column) => column.notNull())
    .addColumn("by", "text", (column) => column.notNull())
    .addColumn("reported_by", "text")
    .addColumn("corrects_id", ordered)
    .addColumn("corrects_as", "text")
    .addColumn("reason", "text")
    .addColumn("body", "text", (column) => column.notNull())
    .execute();
  await db.schema.createIndex("entry_by_id").unique().on("entry").columns(["id", "clinic_id"]).execute();
  await index(db, "entry", "entry_by_person", ["person_id", "clinic_id", "cursor"]);
  await db.schema
    .createIndex("entry_by_correction")
    .on("entry")
    .columns(["corrects_id", "clinic_id"])
    .where(sql.ref("corrects_id"), "is not", null)
    .execute();
  await refuse(db, "update", "entry", "entries are never changed, only corrected by another entry");
}

async function people(db: Kysely<unknown>): Promise<void> {
  const { ordered } = columnTypes(db);
  await db.schema
    .createTable("person_row")
    .addColumn("clinic_id", ordered, (column) => column.notNull())
    .addColumn("person_id", ordered, (column) => column.notNull())
    .addColumn("name", "text", (column) => column.notNull())
    .addColumn("search_text", ordered, (column) => column.notNull())
    .addColumn("birth_date", "text")
    .addColumn("identifier", "text")
    .addColumn("standing", "text", (column) => column.notNull())
    .addColumn("last_entry_ms", "bigint", (column) => column.notNull())
    .addPrimaryKeyConstraint("person_key", ["person_id", "clinic_id"])
    .execute();
  await index(db, "person_row", "person_by_name", ["clinic_id", "search_text", "person_id"]);
}

/** A stoma's facts, what its person is called for the order of lists, and its healing fit. */
async function stomas(db: Kysely<unknown>): Promise<void> {
  const { ordered } = columnTypes(db);
  await db.schema
    .createTable("stoma_row")
    .addColumn("clinic_id", ordered, (column) => column.notNull())
    .addColumn("stoma_id", ordered, (column) => column.notNull())
    .addColumn("person_id", ordered, (column) => column.notNull())
    .addColumn("search_text", ordered, (column) => column.notNull())
    .addColumn("is_only", "bigint", (column) => column.notNull())
    .addColumn("type", "text", (column) => column.notNull())
    .addColumn("construction", "text", (column) => column.notNull())
    .addColumn("label", "text")
    .addColumn("standing", ordered, (column) => column.notNull())
    .addColumn("surgery_on", "text")
    .addColumn("clock_start_on", ordered, (column) => column.notNull())
    .addColumn("last_measured_on", "text")
    .addColumn("measure_from", ordered, (column) => column.notNull())
    .addColumn("measured_at_day", "bigint", (column) => column.notNull())
    .addColumn("last_longest_mm", "double precision")
    .addColumn("last_narrowest_mm", "double precision")
    .addColumn("opening_since", "text")
    .addColumn("widest_gap_mm", "double precision")
    .addColumn("narrowest_gap_mm", "double precision")
    .addColumn("widest_at_hour", "bigint")
    .addColumn("gap_of", "text")
    .addColumn("system_name", "text")
    .addColumn("fit_stale", "bigint", (column) => column.notNull())
    .addColumn("fits_until_on", ordered)
    .addColumn("fits_until_lower_on", "text")
    .addColumn("fits_until_upper_on", "text")
    .addColumn("fit_program", ordered, (column) => column.notNull())
    .addColumn("fit_protocol", "bigint", (column) => column.notNull())
    .addPrimaryKeyConstraint("stoma_key", ["stoma_id", "clinic_id"])
    .execute();
  await index(db, "stoma_row", "stoma_by_person", ["person_id", "clinic_id"]);
  await index(db, "stoma_row", "stoma_by_fit", ["clinic_id", "fit_stale", "fit_program", "fit_protocol"]);
  const active = ["clinic_id", "standing"];
  const name = ["search_text", "stoma_id"];
  // What is counted by, so that counting reads the index alone.
  const counted = ["fits_until_on", "narrowest_gap_mm", "widest_gap_mm", "is_only", "person_id"];
  await index(db, "stoma_row", "stoma_by_measuring", [
    ...active,
    "measure_from",
    ...name,
    "measured_at_day",
    ...counted,
  ]);
  await index(db, "stoma_row", "stoma_counted", [
    "stoma_id",
    "clinic_id",
    "measure_from",
    "measured_at_day",
    ...counted,
  ]);
  await index(db, "stoma_row", "stoma_by_newness", [
    ...active,
    "measured_at_day",
    "measure_from",
    ...counted,
  ]);
  await index(db, "stoma_row", "stoma_by_fits_until", [...active, "fits_until_on", ...name]);
  await index(db, "stoma_row", "stoma_by_widest_gap", [...active, "widest_gap_mm", ...name]);
  await index(db, "stoma_row", "stoma_by_narrowest_gap", [...active, "narrowest_gap_mm", ...name]);
}

async function wears(db: Kysely<unknown>): Promise<void> {
  const { ordered } = columnTypes(db);
  await db.schema
    .createTable("wear_row")
    .addColumn("clinic_id", ordered, (column) => column.notNull())
    .addColumn("wear_id", ordered, (column) => column.notNull())
    .addColumn("stoma_id", ordered, (column) => column.notNull())
    .addColumn("person_id", ordered, (column) => column.notNull())
    .addColumn("ended_ms", "bigint", (column) => column.notNull())
    .addColumn("hours", "double precision", (column) => column.notNull())
    .addColumn("why", "text", (column) => column.notNull())
    .addColumn("closure", "text")
    .addColumn("planned_interval_days", "double precision")
    .addColumn("unplanned_place", "bigint")
    .addPrimaryKeyConstraint("wear_key", ["wear_id", "clinic_id"])
    .execute();
  await index(db, "wear_row", "wear_by_stoma", ["stoma_id", "clinic_id", "ended_ms"]);
  await index(db, "wear_row", "wear_by_person", ["person_id", "clinic_id"]);
  await db.schema
    .createIndex("wear_by_unplanned_place")
    .on("wear_row")
    .columns(["clinic_id", "unplanned_place", "ended_ms", "stoma_id"])
    .where(sql.ref("unplanned_place"), "is not", null)
    .execute();
  // What a short wear is told by, so that counting them reads the index alone.
  const told = ["hours", "closure", "planned_interval_days", "unplanned_place"];
  await db.schema
    .createIndex("wear_by_unplanned")
    .on("wear_row")
    .columns(["stoma_id", "clinic_id", "ended_ms", ...told])
    .where(sql.ref("unplanned_place"), "is not", null)
    .execute();
}

async function index(db: Kysely<unknown>, table: string, name: string, columns: string[]): Promise<void> {
  await db.schema.createIndex(name).on(table).columns(columns).execute();
}
