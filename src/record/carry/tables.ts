import { type Kysely, sql } from "kysely";
import { engineOf } from "../store/engine.ts";
import type { RecordTables } from "../store/schema.ts";
import { CarryFault } from "./fault.ts";

export type TableName = keyof RecordTables;

/** The columns by which a table's rows are put in order: its key. `passing` ones are left behind. */
type Carriage = { key: readonly string[] } | "passing";

/**
 * How each table is carried into a backup and to another engine. What lets somebody in for the moment (sessions,
 * links, challenges, counts of failures) stays behind: a restore must not sign anybody in again.
 */
const carriages = {
  account: { key: ["account_id"] },
  account_link: "passing",
  account_session: "passing",
  audit_head: { key: ["clinic_id"] },
  audit_line: { key: ["clinic_id", "seq"] },
  audit_person: { key: ["clinic_id", "person_id", "seq"] },
  challenge: "passing",
  clinic_row: { key: ["clinic_id"] },
  entry: { key: ["clinic_id", "cursor"] },
  known_device: "passing",
  mark: { key: ["name"] },
  passkey: { key: ["credential_id"] },
  person_row: { key: ["clinic_id", "person_id"] },
  photo: { key: ["clinic_id", "photo_id"] },
  stoma_row: { key: ["clinic_id", "stoma_id"] },
  throttle: "passing",
  tombstone: { key: ["clinic_id", "person_id"] },
  wear_row: { key: ["clinic_id", "wear_id"] },
} satisfies Record<TableName, Carriage>;

/** What JSON makes of a column: bytes are base64 there. */
export type ColumnKind = "text" | "integer" | "number" | "bytes";

export interface CarriedTable {
  name: TableName;
  key: readonly string[];
  /** By name, in order of their names: engines keep them in different orders. */
  columns: { name: string; kind: ColumnKind }[];
}

/**
 * The tables of a database that are carried, as it has them now.
 * @throws {CarryFault} `newerProgram` when it has tables that this program does not know
 */
export async function carriedTables(db: Kysely<RecordTables>): Promise<CarriedTable[]> {
  const names = await tableNames(db);
  const unknown = names.filter((name) => !(name in carriages));
  if (unknown.length > 0) {
    throw new CarryFault(
      "newerProgram",
      `The record has tables that this version of Roundel does not know (${unknown.join(", ")}). Use the version that made it, or a newer one.`,
    );
  }
  const tables: CarriedTable[] = [];
  for (const name of names as TableName[]) {
    const carriage: Carriage = carriages[name];
    if (carriage === "passing") continue;
    tables.push({ name, key: carriage.key, columns: await columnsOf(db, name) });
  }
  return tables;
}

async function tableNames(db: Kysely<RecordTables>): Promise<string[]> {
  const query =
    engineOf(db) === "sqlite"
      ? sql<{
          name: string;
        }>`select name from sqlite_master where type = 'table' and name not like 'sqlite\\_%' escape '\\'`
      : sql<{
          name: string;
        }>`select relname as name from pg_class where relkind in ('r', 'p') and not relispartition
          and relnamespace = current_schema()::regnamespace`;
  const { rows } = await query.execute(db);
  return rows
    .map(({ name }) => name)
    .filter((name) => !name.startsWith("kysely_"))
    .sort();
}

async function columnsOf(db: Kysely<RecordTables>, table: string): Promise<CarriedTable["columns"]> {
  const query =
    engineOf(db) === "sqlite"
      ? sql<{ name: string; type: string }>`select name, type from pragma_table_info(${table})`
      : sql<{
          name: string;
          type: string;
        }>`select attname as name, format_type(atttypid, null) as type from pg_attribute
          where attrelid = to_regclass(${table}) and attnum > 0 and not attisdropped`;
  const { rows } = await query.execute(db);
  return rows
    .map(({ name, type }) => ({ name, kind: kindOf(type) }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}

function kindOf(type: string): ColumnKind {
  const lower = type.toLowerCase();
  if (lower === "blob" || lower === "bytea") return "bytes";
  if (lower.includes("int")) return "integer";
  if (lower.startsWith("double") || lower === "real") return "number";
  if (lower === "text") return "text";
  throw new Error(`columns of type ${type} are not carried`);
}
