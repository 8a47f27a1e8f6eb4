import { v7 as uuidv7 } from "uuid";
import type { At, BodyOf, Draft, Kind } from "../../../record/entry/index.ts";

/** The version of each kind's body that these pages write; a test holds it equal to the record's. */
export const writtenVersions: Record<Kind, number> = {
  clinic: 1,
  protocolSet: 1,
  person: 1,
  stoma: 1,
  measured: 1,
  cut: 1,
  fitted: 1,
  changed: 1,
  event: 1,
  noted: 1,
  skin: 1,
  consented: 1,
  sited: 1,
  advised: 1,
};

export interface About {
  /** Made when the writer began, so that a retry is the same entry. */
  id?: string;
  personId: string | null;
  stomaId: string | null;
  at: At;
  reportedBy?: string;
  corrects?: { id: string; as: "replace" | "retract" };
  reason?: string;
}

/** An entry as the bench takes it: the server adds the clinic, the author and the time of writing. */
export function draftEntry<K extends Kind>(kind: K, body: BodyOf<K>, about: About): Draft<K> {
  const { id = newId(), ...rest } = about;
  return { id, kind, schemaVersion: writtenVersions[kind], body, ...rest } as unknown as Draft<K>;
}

export function newId(): string {
  return uuidv7();
}

/** This moment, as it is lived in the clinic's zone. */
export function nowIn(zone: string): At {
  return { instant: new Date().toISOString(), zone };
}
