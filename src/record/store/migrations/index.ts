import type { Migration } from "kysely";
import * as record from "./2026-11-25-record.ts";

/** Forward only; a released migration is never edited. */
export const migrations: Record<string, Migration> = {
  "2026-11-25-record": record,
};
