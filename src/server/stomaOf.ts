import type { RecordStore } from "../record/store/index.ts";
import { type PersonStory, personStory, type StomaStory } from "../record/story/index.ts";
import { Refusal } from "./errors/refusal.ts";

/** A person's story. @throws {Refusal} `noSuchPerson` */
export async function personOf(store: RecordStore, clinicId: string, personId: string): Promise<PersonStory> {
  const person = personStory(await store.entriesOfPerson(clinicId, personId));
  if (!person) throw new Refusal("noSuchPerson");
  return person;
}

/** A person's and a stoma's story. @throws {Refusal} `noSuchPerson`, `noSuchStoma` */
export async function stomaOf(
  store: RecordStore,
  clinicId: string,
  { personId, stomaId }: { personId: string; stomaId: string },
): Promise<{ person: PersonStory; stoma: StomaStory }> {
  const person = await personOf(store, clinicId, personId);
  const stoma = person.stomas.find((one) => one.stomaId === stomaId);
  if (!stoma) throw new Refusal("noSuchStoma");
  return { person, stoma };
}
