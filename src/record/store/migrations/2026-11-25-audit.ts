import type { Kysely } from "kysely";
import { refuse } from "./columns.ts";

/** The audit trail: a hash chain a clinic, where it ends, and by whom its lines are found. */
export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable("audit_line")
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("seq", "bigint", (column) => column.notNull())
    .addColumn("at_ms", "bigint", (column) => column.notNull())
    .addColumn("account_id", "text")
    .addColumn("session_id", "text")
    .addColumn("action", "text", (column) => column.notNull())
    .addColumn("objects", "text", (column) => column.notNull())
    .addColumn("outcome", "text", (column) => column.notNull())
    .addColumn("prev", "text", (column) => column.notNull())
    .addColumn("hash", "text", (column) => column.notNull())
    .addPrimaryKeyConstraint("audit_line_key", ["clinic_id", "seq"])
    .execute();
  await db.schema
    .createIndex("audit_by_account")
    .on("audit_line")
    .columns(["clinic_id", "account_id", "seq"])
    .execute();
  await refuse(db, "update", "audit_line", "lines of the audit trail are never changed");
  await refuse(db, "delete", "audit_line", "lines of the audit trail are never removed");

  await db.schema
    .createTable("audit_person")
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("person_id", "text", (column) => column.notNull())
    .addColumn("seq", "bigint", (column) => column.notNull())
    .addPrimaryKeyConstraint("audit_person_key", ["clinic_id", "person_id", "seq"])
    .execute();
  await db.schema
    .createIndex("audit_person_by_seq")
    .on("audit_person")
    .columns(["clinic_id", "seq"])
    .execute();

  await db.schema
    .createTable("audit_head")
    .addColumn("clinic_id", "text", (column) => column.primaryKey())
    .addColumn("seq", "bigint", (column) => column.notNull())
    .addColumn("hash", "text", (column) => column.notNull())
    .execute();
}
