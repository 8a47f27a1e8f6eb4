import type { Kysely } from "kysely";
import { addToCounts } from "../store/counts.ts";
import { projectPersonIn } from "../store/project.ts";
import type { RecordTables } from "../store/schema.ts";

type Transaction = Kysely<RecordTables>;

/** What was removed with a person. */
export interface Removed {
  entries: number;
  photos: number;
  accounts: number;
}

/** Tables of what lets an account in. Attempts at signing in are kept under hashes and run out by themselves. */
export const tablesOfAccount = ["account_session", "passkey", "account_link", "known_device"] as const;

/** Removes everything about a person whose tombstone is there already: without it the engine keeps their entries. */
export async function removePerson(trx: Transaction, clinicId: string, personId: string): Promise<Removed> {
  const ofPerson = (table: "entry" | "photo") =>
    trx
      .deleteFrom(table)
      .where("clinic_id", "=", clinicId)
      .where("person_id", "=", personId)
      .executeTakeFirstOrThrow();
  const entries = Number((await ofPerson("entry")).numDeletedRows);
  const photos = Number((await ofPerson("photo")).numDeletedRows);
  // Without entries nothing is left to tell: the projections go.
  const more = await projectPersonIn(trx, clinicId, personId);
  await addToCounts(trx, clinicId, { ...more, entries: -entries });
  return { entries, photos, accounts: await removeAccounts(trx, clinicId, personId) };
}

/** The person's own account, and those of whoever helps them: both see this person and nobody else. */
async function removeAccounts(trx: Transaction, clinicId: string, personId: string): Promise<number> {
  const accounts = await trx
    .deleteFrom("account")
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .returning("account_id")
    .execute();
  const ids = accounts.map((row) => row.account_id);
  if (ids.length === 0) return 0;
  for (const table of tablesOfAccount) {
    await trx.deleteFrom(table).where("clinic_id", "=", clinicId).where("account_id", "in", ids).execute();
  }
  return ids.length;
}
