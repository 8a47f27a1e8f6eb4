import type { Kysely } from "kysely";
import type { RecordTables } from "../store/schema.ts";

type Db = Kysely<RecordTables>;

/** What the record itself says about its keys. None of it is secret. */
export type KeyMark =
  /** Which record this is: names its key file. */
  | "recordId"
  /** The recipient of the working key in force; another than the key file's while a rotation is under way. */
  | "keyRecipient"
  /**
   * The secret that other keys derive from, sealed for both keys: how the recovery key alone brings it back. Written
   * last in a change of keys; a word before it names the recipients.
   */
  | "keySecret";

export async function readMark(db: Db, name: KeyMark): Promise<string | null> {
  const row = await db.selectFrom("mark").select("value").where("name", "=", name).executeTakeFirst();
  return row?.value ?? null;
}

export async function writeMark(db: Db, name: KeyMark, value: string): Promise<void> {
  await db
    .insertInto("mark")
    .values({ name, value })
    .onConflict((conflict) => conflict.column("name").doUpdateSet({ value }))
    .execute();
}

/** The mark that is there, or this one where there is none: of several processes that start at once, the first one's. */
export async function firstMark(db: Db, name: KeyMark, value: string): Promise<string> {
  const there = await readMark(db, name);
  if (there !== null) return there;
  await db
    .insertInto("mark")
    .values({ name, value })
    .onConflict((conflict) => conflict.column("name").doNothing())
    .execute();
  return (await readMark(db, name))!;
}
