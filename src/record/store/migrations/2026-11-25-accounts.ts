import type { Kysely } from "kysely";

/**
 * Accounts and what lets them in. Secrets are kept as hashes. A clinic stands in every row but those that count failed
 * attempts and challenges, which come from strangers.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable("account")
    .addColumn("account_id", "text", (column) => column.primaryKey())
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("sign_in_name", "text", (column) => column.notNull())
    .addColumn("sign_in_key", "text", (column) => column.notNull().unique())
    .addColumn("display_name", "text", (column) => column.notNull())
    .addColumn("role", "text", (column) => column.notNull())
    .addColumn("person_id", "text")
    .addColumn("password_hash", "text")
    .addColumn("second_factor", "bigint", (column) => column.notNull())
    .addColumn("demo", "bigint", (column) => column.notNull())
    .addColumn("created_ms", "bigint", (column) => column.notNull())
    .addColumn("closed_ms", "bigint")
    .execute();
  await index(db, "account", "account_by_clinic", ["clinic_id", "role"]);

  await db.schema
    .createTable("account_session")
    .addColumn("session_id", "text", (column) => column.primaryKey())
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("account_id", "text", (column) => column.notNull())
    .addColumn("listener", "text", (column) => column.notNull())
    .addColumn("secret_hash", "text", (column) => column.notNull().unique())
    .addColumn("previous_hash", "text")
    .addColumn("device", "text", (column) => column.notNull())
    .addColumn("created_ms", "bigint", (column) => column.notNull())
    .addColumn("rotated_ms", "bigint", (column) => column.notNull())
    .addColumn("last_seen_ms", "bigint", (column) => column.notNull())
    .addColumn("strong_ms", "bigint", (column) => column.notNull())
    .execute();
  await index(db, "account_session", "session_by_account", ["account_id"]);
  await index(db, "account_session", "session_by_previous", ["previous_hash"]);
  await index(db, "account_session", "session_by_seen", ["last_seen_ms"]);

  await db.schema
    .createTable("passkey")
    .addColumn("credential_id", "text", (column) => column.primaryKey())
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("account_id", "text", (column) => column.notNull())
    .addColumn("rp_id", "text", (column) => column.notNull())
    .addColumn("name", "text", (column) => column.notNull())
    .addColumn("public_key", "text", (column) => column.notNull())
    .addColumn("counter", "bigint", (column) => column.notNull())
    .addColumn("transports", "text", (column) => column.notNull())
    .addColumn("created_ms", "bigint", (column) => column.notNull())
    .addColumn("last_used_ms", "bigint")
    .execute();
  await index(db, "passkey", "passkey_by_account", ["account_id"]);

  await db.schema
    .createTable("account_link")
    .addColumn("link_id", "text", (column) => column.primaryKey())
    .addColumn("clinic_id", "text")
    .addColumn("kind", "text", (column) => column.notNull())
    .addColumn("token_hash", "text", (column) => column.notNull().unique())
    .addColumn("account_id", "text")
    .addColumn("role", "text")
    .addColumn("display_name", "text")
    .addColumn("sign_in_name", "text")
    .addColumn("made_by", "text")
    .addColumn("created_ms", "bigint", (column) => column.notNull())
    .addColumn("expires_ms", "bigint", (column) => column.notNull())
    .execute();
  await index(db, "account_link", "link_by_clinic", ["clinic_id"]);

  await db.schema
    .createTable("challenge")
    .addColumn("challenge_hash", "text", (column) => column.primaryKey())
    .addColumn("purpose", "text", (column) => column.notNull())
    .addColumn("about_id", "text")
    .addColumn("expires_ms", "bigint", (column) => column.notNull())
    .execute();
  await index(db, "challenge", "challenge_by_expiry", ["expires_ms"]);

  await db.schema
    .createTable("known_device")
    .addColumn("account_id", "text", (column) => column.notNull())
    .addColumn("device_hash", "text", (column) => column.notNull())
    .addColumn("clinic_id", "text", (column) => column.notNull())
    .addColumn("last_ms", "bigint", (column) => column.notNull())
    .addPrimaryKeyConstraint("known_device_key", ["account_id", "device_hash"])
    .execute();

  await db.schema
    .createTable("throttle")
    .addColumn("about", "text", (column) => column.primaryKey())
    .addColumn("failures", "bigint", (column) => column.notNull())
    .addColumn("last_ms", "bigint", (column) => column.notNull())
    .addColumn("not_before_ms", "bigint", (column) => column.notNull())
    .execute();
  await index(db, "throttle", "throttle_by_last", ["last_ms"]);
}

async function index(db: Kysely<unknown>, table: string, name: string, columns: string[]): Promise<void> {
  await db.schema.createIndex(name).on(table).columns(columns).execute();
}
