import { randomBytes } from "node:crypto";
import pg from "pg";
import { inject } from "vitest";

/** Makes an empty database on the tests' server. */
export async function emptyDatabase(): Promise<string> {
  const name = `record_${randomBytes(6).toString("hex")}`;
  await onServer(`create database ${name}`);
  return urlOf(name);
}

/** Does one statement as the server's owner. */
export async function onServer(statement: string): Promise<pg.QueryResult> {
  return inDatabase(inject("postgresUrl"), statement);
}

export async function inDatabase(
  url: string,
  statement: string,
  values: unknown[] = [],
): Promise<pg.QueryResult> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return await client.query(statement, values);
  } finally {
    await client.end();
  }
}

function urlOf(name: string): string {
  const url = new URL(inject("postgresUrl"));
  url.pathname = `/${name}`;
  return url.href;
}

/** Takes everything out of a database but its tables. */
export async function emptied(url: string): Promise<void> {
  const { rows } = await inDatabase(
    url,
    `select relname from pg_class where relkind in ('r', 'p') and not relispartition
      and relnamespace = 'public'::regnamespace and relname not like 'kysely%'`,
  );
  const tables = rows.map(({ relname }) => `"${relname}"`).join(", ");
  await inDatabase(url, `truncate ${tables}; alter sequence entry_cursor restart`);
}
