import type { RecordStore } from "../record/store/index.ts";
import { type ClinicStory, clinicStory } from "../record/story/index.ts";
import { Refusal } from "./errors/refusal.ts";

/** The one clinic whose record this bench keeps. */
export class Clinic {
  private readonly store: RecordStore;
  /** Never changes once it is there, and looking for it is dear in a large record. */
  private id: string | null = null;

  constructor(store: RecordStore) {
    this.store = store;
  }

  /** Null before the clinic was set up. */
  async storyIfAny(): Promise<ClinicStory | null> {
    this.id ??= (await this.store.clinicIds())[0] ?? null;
    return this.id === null ? null : clinicStory(await this.store.clinicEntries(this.id));
  }

  /** @throws {Refusal} `notSetUp` */
  async story(): Promise<ClinicStory> {
    const story = await this.storyIfAny();
    if (!story) throw new Refusal("notSetUp");
    return story;
  }
}
