import { existsSync } from "node:fs";
import type { OpenRecord, RecordPlace } from "../../record/open/index.ts";
import type { RecordStore } from "../../record/store/index.ts";
import type { ClinicStory, PersonStory, StomaStory } from "../../record/story/index.ts";
import { Failure, Refusal } from "../ending.ts";
import { clinicNamed, databaseNamed, keyFileNamed } from "./named.ts";

/** Options that every command on a data folder has. */
export interface FolderOptions {
  data?: string;
  progress?: boolean;
}

export const dataOption = ["--data <folder>", "the data folder of the clinic"] as const;
export const progressOption = [
  "--progress",
  "show how far it has come, also when nobody watches a terminal",
] as const;

/**
 * Opens a record, works on its entries and closes it whatever happens.
 * @throws {Refusal} when none was named, or there is none and `make` allows no new one
 */
export async function withRecord<T>(
  data: string | undefined,
  work: (store: RecordStore) => Promise<T>,
  options: { make?: boolean } = {},
): Promise<T> {
  return withOpenRecord(data, ({ store }) => work(store), options);
}

/**
 * The same with everything that stands beside the record: its audit trail, its keys, its accounts.
 * @throws {Refusal} as {@link withRecord} does
 */
export async function withOpenRecord<T>(
  data: string | undefined,
  work: (record: OpenRecord) => Promise<T>,
  { make = false }: { make?: boolean } = {},
): Promise<T> {
  const [{ openRecord }, { DatabaseFault, MovedOnError }] = await Promise.all([
    import("../../record/open/index.ts"),
    import("../../record/store/index.ts"),
  ]);
  try {
    const record = await openRecord(await placeNamed(data, make));
    try {
      return await work(record);
    } finally {
      await record.close();
    }
  } catch (error) {
    if (error instanceof DatabaseFault) throw new Failure(error.message);
    if (error instanceof MovedOnError)
      throw new Failure("Somebody wrote about this person meanwhile; nothing was written. Try again.");
    throw error;
  }
}

/** Where the record is that a command is about: a database wins over a folder. */
async function placeNamed(data: string | undefined, make: boolean): Promise<RecordPlace> {
  const url = databaseNamed();
  if (url !== undefined) return { url, keyFile: keyFileNamed() };
  const dataDir = folderNamed(data);
  const { recordFile } = await import("../../record/store/index.ts");
  const file = recordFile(dataDir);
  if (!make && !existsSync(file))
    throw new Refusal(`The folder ${dataDir} holds no record (there is no ${file}).`);
  return { dataDir, keyFile: keyFileNamed() };
}

/** Who did it, as the audit trail names a command at the machine itself. */
export function atMachine(): { atMs: number; accountId: null; sessionId: null } {
  return { atMs: Date.now(), accountId: null, sessionId: null };
}

/**
 * Commander would ask for the option of `export` where `export log` has its own, so that it is asked for here.
 * @throws {Refusal} when no folder was named
 */
export function folderNamed(data: string | undefined): string {
  if (data === undefined) throw new Refusal("Which record? Name its folder with --data.");
  return data;
}

/**
 * The clinic that was named, or the only one.
 * @throws {Failure} before it was set up
 * @throws {Refusal} where there are several and none was named, or another
 */
export async function clinicOf(store: RecordStore): Promise<ClinicStory> {
  const { clinicStory } = await import("../../record/story/index.ts");
  const clinicIds = await store.clinicIds();
  const clinicId = clinicNamed() ?? clinicIds[0];
  if (clinicId !== undefined && clinicIds.length > 0 && !clinicIds.includes(clinicId))
    throw new Refusal(`This record holds no clinic ${clinicId}.`);
  if (clinicNamed() === undefined && clinicIds.length > 1)
    throw new Refusal(`Which clinic? Name it with --clinic: ${clinicIds.join(", ")}.`);
  const clinic = clinicId === undefined ? null : clinicStory(await store.clinicEntries(clinicId));
  if (clinic) return clinic;
  throw new Failure("This record is empty: set the clinic up first, with roundel serve --data.");
}

/** A person and one of their stomas: the only one, or the one that was named. */
export async function stomaOf(
  store: RecordStore,
  clinicId: string,
  { person: personId, stoma: stomaId }: { person: string; stoma?: string },
): Promise<{ person: PersonStory; stoma: StomaStory }> {
  const { personStory } = await import("../../record/story/index.ts");
  const person = personStory(await store.entriesOfPerson(clinicId, personId));
  if (!person) throw new Refusal(`This record holds no person ${personId}.`);
  const known = person.stomas.map((one) => `${one.stomaId} (${one.details.label ?? one.details.type})`);
  const stoma =
    stomaId === undefined && person.stomas.length === 1
      ? person.stomas[0]
      : person.stomas.find((one) => one.stomaId === stomaId);
  if (stoma) return { person, stoma };
  const which =
    stomaId === undefined ? "Which stoma? Name it with --stoma" : `This person has no stoma ${stomaId}`;
  throw new Refusal(`${which}: ${known.join(", ") || "none is recorded"}.`);
}
