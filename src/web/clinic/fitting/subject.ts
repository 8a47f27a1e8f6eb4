import { dimensionsOf, type Outline, outlineOf } from "../../../domain/outline/index.ts";
import type { BodyOf, RecordedShape, StoredEntry } from "../../../record/entry/index.ts";
import { type PersonStory, personStory, type Reading, type StomaStory } from "../../../record/story/index.ts";

/** The reading that the figures on the page are about. */
export interface Subject {
  outline: Outline;
  /** The shape as it was read or will be stored; null while an outline being written is not whole. */
  shape: RecordedShape | null;
  /** The reading of the record that is shown; null while a new one is written. */
  reading: Reading | null;
}

/** Length head to foot and width side to side; and along the longest and narrowest directions, mm. */
export interface Sizes {
  lengthMm: number;
  widthMm: number;
  longestMm: number;
  narrowestMm: number;
}

export function sizesOf(outline: Outline): Sizes {
  const { lengthMm, widthMm, feretMaxMm, feretMinMm } = dimensionsOf(outline);
  return { lengthMm, widthMm, longestMm: feretMaxMm, narrowestMm: feretMinMm };
}

/** A reading as the subject of the page. */
export function recordedSubject(reading: Reading): Subject {
  return { outline: outlineOf(reading.shape), shape: reading.shape, reading };
}

/** The reading that an address names, by the id of any entry in its chain of corrections. */
export function readingNamed(stoma: StomaStory, id: string): Reading | null {
  return (
    stoma.readings.find(
      ({ source }) => source.first.id === id || source.corrections.some((correction) => correction.id === id),
    ) ?? null
  );
}

/** Whether the opening was cut from this very reading, so that it lies where it was drawn. */
export function isCutFrom(measuredId: string | undefined, reading: Reading | null): boolean {
  if (!measuredId || !reading) return false;
  const { source } = reading;
  return source.first.id === measuredId || source.corrections.some(({ id }) => id === measuredId);
}

/** What an entry needs beside its body to be read as part of the record before it is saved. */
export interface Provisional {
  body: BodyOf<"measured">;
  id: string;
  clinicId: string;
  personId: string;
  stomaId: string;
  at: StoredEntry["at"];
  by: StoredEntry["by"];
  corrects?: string;
}

/** The stoma's story as it would be with the reading on the page in it. */
export function storyWith(
  entries: readonly StoredEntry[],
  { corrects, ...reading }: Provisional,
): StomaStory | null {
  const entry = {
    ...reading,
    kind: "measured",
    schemaVersion: 1,
    recordedAt: new Date(0).toISOString(),
    cursor: Number.MAX_SAFE_INTEGER,
    ...(corrects ? { corrects: { id: corrects, as: "replace" }, reason: "not saved yet" } : {}),
  } as StoredEntry<"measured">;
  return stomaIn(personStory([...entries, entry]), reading.stomaId);
}

export function stomaIn(story: PersonStory | null, stomaId: string): StomaStory | null {
  return story?.stomas.find((stoma) => stoma.stomaId === stomaId) ?? null;
}
