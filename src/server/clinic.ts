import type { FastifyRequest } from "fastify";
import type { RecordStore } from "../record/store/index.ts";
import { type ClinicStory, clinicStory } from "../record/story/index.ts";
import { signedInOf } from "./access/signedIn.ts";
import { Refusal } from "./errors/refusal.ts";

/** Clinics as a session says which: several may keep their records in one database. */
export class Clinic {
  private readonly store: RecordStore;

  constructor(store: RecordStore) {
    this.store = store;
  }

  /** The story of the session's clinic. @throws {Refusal} `signInFirst`, `notSetUp` */
  async story(request: FastifyRequest): Promise<ClinicStory> {
    const story = await this.storyOf(signedInOf(request).account.clinicId);
    if (!story) throw new Refusal("notSetUp");
    return story;
  }

  /** Null before the clinic was set up. */
  async storyOf(clinicId: string): Promise<ClinicStory | null> {
    return clinicStory(await this.store.clinicEntries(clinicId));
  }
}
