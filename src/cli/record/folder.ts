import { existsSync } from "node:fs";
import type { RecordStore } from "../../record/store/index.ts";
import type { ClinicStory, PersonStory, StomaStory } from "../../record/story/index.ts";
import { Failure, Refusal } from "../ending.ts";

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
 * Opens the record of a data folder, works on it and closes it whatever happens.
 * @throws {Refusal} when no folder was named, or it holds no record and `make` allows no new one
 */
export async function withRecord<T>(
  named: string | undefined,
  work: (store: RecordStore) => Promise<T>,
  { make = false }: { make?: boolean } = {},
): Promise<T> {
  const dataDir = folderNamed(named);
  const { openSqlite, recordFile } = await import("../../record/store/index.ts");
  const file = recordFile(dataDir);
  if (!make && !existsSync(file))
    throw new Refusal(`The folder ${dataDir} holds no record (there is no ${file}).`);
  const store = await openSqlite(file);
  try {
    return await work(store);
  } finally {
    await store.close();
  }
}

/**
 * Commander would ask for the option of `export` where `export log` has its own, so that it is asked for here.
 * @throws {Refusal} when no folder was named
 */
export function folderNamed(data: string | undefined): string {
  if (data === undefined) throw new Refusal("Which record? Name its folder with --data.");
  return data;
}

/** The clinic of a record: a bench keeps one. @throws {Failure} before it was set up */
export async function clinicOf(store: RecordStore): Promise<ClinicStory> {
  const { clinicStory } = await import("../../record/story/index.ts");
  const [clinicId] = await store.clinicIds();
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
