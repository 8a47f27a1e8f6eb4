import { v7 as uuidv7 } from "uuid";
import type { At, BodyOf, Entry, Kind, StoredEntry } from "../../src/record/entry/index.ts";
import { kinds } from "../../src/record/entry/index.ts";
import { personStory, type StomaStory } from "../../src/record/story/index.ts";

/** Invented records for tests. */
export const clinicId = "0b7c9a52-6a0e-4c9f-8d53-0f6f3a1c2d10";
export const nurse = { id: "5d1f0a9e-3b7c-4f86-9a64-8e2b7c5d9f01", name: "Ines Marlow" };
export const zone = "Europe/London";
export const now = Date.parse("2026-11-25T10:00:00Z");

export const clinicDetails: BodyOf<"clinic"> = {
  name: "Harbour Street stoma clinic",
  timeZone: zone,
  nurse,
  nursePhone: "01632 960 100",
  paper: "A4",
};

export interface About {
  id?: string;
  personId?: string | null;
  stomaId?: string | null;
  at?: At;
  recordedAt?: string;
  corrects?: { id: string; as: "replace" | "retract" };
  reason?: string;
}

/** An entry as the store takes it. */
export function entry<K extends Kind>(kind: K, body: BodyOf<K>, about: About = {}): Entry<K> {
  return {
    id: uuidv7(),
    clinicId,
    personId: null,
    stomaId: null,
    kind,
    schemaVersion: kinds[kind].version,
    at: day("2026-11-24"),
    recordedAt: new Date(now).toISOString(),
    by: nurse,
    ...about,
    body,
  } as unknown as Entry<K>;
}

/** The same without what the server adds. */
export function draft<K extends Kind>(kind: K, body: BodyOf<K>, about: About = {}): Record<string, unknown> {
  const { clinicId: _clinic, by: _by, recordedAt: _at, ...rest } = entry(kind, body, about);
  return rest;
}

export function day(date: string): At {
  return { date, precision: "day" };
}

export function instant(text: string, inZone = zone): At {
  return { instant: new Date(text).toISOString(), zone: inZone };
}

export function clinicEntry(details: Partial<BodyOf<"clinic">> = {}): Entry<"clinic"> {
  return entry("clinic", { ...clinicDetails, ...details });
}

export interface SamplePerson {
  personId: string;
  stomaId: string;
  /** Ids of the person and the stoma, for entries about them. */
  about: { personId: string; stomaId: string };
  entries: Entry[];
}

/** A person with one ileostomy. */
export function samplePerson(
  details: Partial<BodyOf<"person">> = {},
  stoma: Partial<BodyOf<"stoma">> = {},
): SamplePerson {
  const about = { personId: uuidv7(), stomaId: uuidv7() };
  const person = { name: "Edda Voss", birthDate: "1951-04-03", identifier: "R-1042", ...details };
  const made = { type: "ileostomy", construction: "end", surgeryOn: since("2026-10-20"), ...stoma } as const;
  return {
    ...about,
    about,
    entries: [
      entry("person", person, { personId: about.personId, at: day("2026-10-21") }),
      entry("stoma", made, { ...about, at: day("2026-10-21") }),
    ],
  };
}

export function since(date: string): { date: string; precision: "day" } {
  return { date, precision: "day" };
}

export function round(diameterMm: number): BodyOf<"measured"> {
  return { method: "guide", shape: { guide: { shape: "round", diameterMm } }, stepMm: 3.175 };
}

export function change(
  why: BodyOf<"changed">["why"] = "planned",
  more: Partial<BodyOf<"changed">> = {},
): BodyOf<"changed"> {
  return { what: "barrier", why, ...more };
}

export const drainable: BodyOf<"fitted"> = {
  system: {
    name: "drainable one-piece, flat, cut-to-fit 15-60 mm",
    pieces: "one",
    closure: "drainable",
    barrier: "flat",
    opening: "cutToFit",
    maxOpeningMm: 60,
    starterHoleMm: 15,
    barrierAcrossMm: 100,
  },
};

/** Entries as the store would have committed them, in this order. */
export function stored(entries: readonly Entry[]): StoredEntry[] {
  return entries.map((one, index) => ({ ...one, cursor: index + 1 }));
}

export function storyOf(entries: readonly Entry[]) {
  const story = personStory(stored(entries));
  if (!story) throw new Error("the entries hold no person");
  return story;
}

export function stomaOf(entries: readonly Entry[]): StomaStory {
  return storyOf(entries).stomas[0]!;
}
