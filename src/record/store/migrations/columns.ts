import { type Kysely, type RawBuilder, sql } from "kysely";
import { engineOf } from "../engine.ts";

/**
 * Types of columns, by engine. Others are the same for both: `bigint` for whole numbers and milliseconds, `double
 * precision` for real ones, `text` where nothing is compared but equality.
 */
interface ColumnTypes {
  /** Text that is put in order or searched by range: by code point, whatever the server's own language is. */
  ordered: RawBuilder<unknown>;
  bytes: "blob" | "bytea";
}

export function columnTypes(db: Kysely<unknown>): ColumnTypes {
  return engineOf(db) === "postgres"
    ? { ordered: sql`text collate "C"`, bytes: "bytea" }
    : { ordered: sql`text`, bytes: "blob" };
}

/**
 * Makes the engine itself refuse to change or to remove rows of a table, whoever asks.
 * @param when a condition over `old` under which alone it is refused
 */
export async function refuse(
  db: Kysely<unknown>,
  what: "update" | "delete",
  table: string,
  sentence: string,
  { when }: { when?: string } = {},
): Promise<void> {
  const trigger = sql.id(`${table}_refuses_${what}`);
  const event = sql.raw(what);
  if (engineOf(db) === "sqlite") {
    await sql`create trigger ${trigger} before ${event} on ${sql.table(table)} ${sql.raw(when ? `when ${when}` : "")}
      begin select raise(abort, ${sql.lit(sentence)}); end`.execute(db);
    return;
  }
  const refusing = sql.id(`${table}_refuses_${what}`);
  await sql`create function ${refusing}() returns trigger language plpgsql as ${sql.lit(
    `begin
      if ${when ?? "true"} then raise exception '${sentence.replaceAll("'", "''")}'; end if;
      return ${what === "delete" ? "old" : "new"};
    end`,
  )}`.execute(db);
  await sql`create trigger ${trigger} before ${event} on ${sql.table(table)}
    for each row execute function ${refusing}()`.execute(db);
}
