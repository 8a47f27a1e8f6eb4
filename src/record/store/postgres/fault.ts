import { isConnectionLost } from "./failures.ts";

/** A database that cannot be opened; the message says why and what to do, and holds no password. */
export class DatabaseFault extends Error {
  constructor(message: string) {
    super(message);
    this.name = "DatabaseFault";
  }
}

/** What the server says when it lets nobody in. @source PostgreSQL, appendix A */
const refusals: Record<string, string> = {
  "28000": "refuses this account (its pg_hba.conf lets it in from nowhere, or not from here)",
  "28P01": "refuses this name and password",
  "3D000": "has no database of this name; make it with createdb",
  "53300": "has no connection left; raise max_connections, or put a pooler before it",
  "42501": "does not let this account make tables; let it own the database",
};

/** The sentence for what went wrong while opening; anything else as it was. */
export function openingFault(error: unknown, where: string): unknown {
  const { code = "" } = (error ?? {}) as { code?: string };
  const refusal = refusals[code];
  if (refusal) return new DatabaseFault(`The database at ${where} ${refusal}.`);
  if (isConnectionLost(error) || code === "ENOTFOUND" || code === "EAI_AGAIN" || isTimeout(error)) {
    return new DatabaseFault(
      `The database at ${where} does not answer. Is it running, and is the address right?`,
    );
  }
  return error;
}

function isTimeout(error: unknown): boolean {
  return error instanceof Error && /timeout/i.test(error.message);
}
