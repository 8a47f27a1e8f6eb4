import { useMemo } from "react";
import {
  type BodyOf,
  type Doubt,
  doubtsAboutMeasurement,
  type StoredEntry,
} from "../../../record/entry/index.ts";
import type { Reading, StomaStory } from "../../../record/story/index.ts";
import { useBench } from "../frame/index.tsx";
import { atOf } from "../kindForms/index.ts";
import { type Fitting, measuredBody, outlineOfForm, type Wrong } from "./state/index.ts";
import { recordedSubject, type Sizes, type Subject, sizesOf, storyWith } from "./subject.ts";

/** What lies on the plate: a reading of the record, or the one being written. */
export interface OnPlate {
  subject: Subject | null;
  sizes: Sizes | null;
  /** A reading with an outline is being written. */
  writing: boolean;
  /** The reading as it will be saved; null while something stands in the way. */
  body: BodyOf<"measured"> | null;
  wrong: Wrong;
  /** The stoma's story with what is on the plate in it; null while that cannot be told. */
  story: StomaStory | null;
  /** Questions about sizes that are possible but unlikely. */
  doubts: Doubt[];
}

export function useOnPlate({
  entries,
  stoma,
  personId,
  fitting,
  shown,
  correcting,
  looking,
}: {
  entries: readonly StoredEntry[];
  stoma: StomaStory;
  personId: string;
  fitting: Fitting;
  /** The reading of the record to show while none is written. */
  shown: Reading | null;
  correcting: Reading | null;
  looking: boolean;
}): OnPlate {
  const { clinic, author, today, protocol } = useBench();
  const { shape, details } = fitting.state;
  const drawn = useMemo(() => outlineOfForm(shape), [shape]);
  const read = useMemo(() => measuredBody({ shape, details }), [shape, details]);
  const body = read.body ?? null;
  const outline = looking ? undefined : drawn.outline;

  const subject = useMemo((): Subject | null => {
    if (outline) return { outline, shape: body?.shape ?? null, reading: null };
    return shown && recordedSubject(shown);
  }, [outline, body, shown]);

  const story = useMemo(() => {
    if (!outline) return stoma;
    if (!body || !author) return null;
    const typed = details.when && atOf(details.when, clinic.details.timeZone);
    return storyWith(entries, {
      id: fitting.id,
      clinicId: clinic.clinicId,
      personId,
      stomaId: stoma.stomaId,
      by: author,
      at: typed ?? { date: today, precision: "day" },
      body,
      corrects: correcting?.source.entry.id,
    });
  }, [outline, body, details.when, entries, stoma, personId, correcting, fitting.id, clinic, author, today]);

  const sizes = useMemo(() => subject && sizesOf(subject.outline), [subject]);
  const about = subject?.reading ?? correcting;
  const lastLongestMm = stoma.readings.filter((reading) => reading !== about).at(-1)?.longestMm;
  const heightMm = outline ? body?.heightMm : subject?.reading?.heightMm;
  const doubts =
    sizes &&
    doubtsAboutMeasurement(
      { heightMm },
      [sizes.longestMm, sizes.narrowestMm],
      { stomaType: stoma.details.type, lastLongestMm },
      protocol,
    );
  return {
    subject,
    sizes,
    writing: outline !== undefined,
    body,
    wrong: read.wrong ?? {},
    story,
    doubts: doubts ?? [],
  };
}
