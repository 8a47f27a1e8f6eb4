import { type Kysely, PostgresAdapter } from "kysely";

export type Engine = "sqlite" | "postgres";

/** The engine behind a database or a transaction of it. */
// biome-ignore lint/suspicious/noExplicitAny: migrations ask too, who see other tables
export function engineOf(db: Kysely<any>): Engine {
  return db.getExecutor().adapter instanceof PostgresAdapter ? "postgres" : "sqlite";
}
