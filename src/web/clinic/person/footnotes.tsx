import type { PlainDate } from "../../../domain/calendar.ts";
import type { Effective } from "../../../record/effective/index.ts";
import type { StoredEntry } from "../../../record/entry/index.ts";
import type { PersonStory } from "../../../record/story/index.ts";
import { type Footnote, footnoteLetter } from "../../shared/ui/index.ts";
import { kindWords, whenWords } from "../../shared/words/index.ts";
import { changedParts, partsOf } from "./history/parts.ts";

/** Every correction as a footnote, and the letter of each corrected entry by the id of what now stands. */
export interface CorrectionNotes {
  letters: ReadonlyMap<string, string>;
  notes: Footnote[];
}

/** A correction stays readable: the old value struck through, who, when and why. */
export function correctionNotes(story: PersonStory, today: PlainDate): CorrectionNotes {
  const corrected = story.history.filter(({ corrections }) => corrections.length > 0);
  const letters = new Map<string, string>();
  const notes = corrected.map((one, index) => {
    const letter = footnoteLetter(index);
    for (const id of [one.entry.id, one.first.id]) letters.set(id, letter);
    return { letter, words: <CorrectionWords one={one} today={today} /> };
  });
  return { letters, notes };
}

function CorrectionWords({ one, today }: { one: Effective; today: PlainDate }) {
  const steps = one.corrections.map((correction, index) => ({
    correction,
    before: one.corrections[index - 1] ?? one.first,
  }));
  return (
    <>
      {steps.map(({ correction, before }) => (
        <CorrectionStep key={correction.id} correction={correction} before={before} today={today} />
      ))}{" "}
      {one.disputed && <b>Two corrections of this entry disagree: choose with “Correct”. </b>}
      The first entry stands in the record.
    </>
  );
}

function CorrectionStep({
  correction,
  before,
  today,
}: {
  correction: StoredEntry;
  before: StoredEntry;
  today: PlainDate;
}) {
  const zone = "zone" in correction.at ? correction.at.zone : "UTC";
  const when = whenWords({ instant: correction.recordedAt, zone }, today);
  const retract = correction.corrects?.as === "retract";
  const differences = retract ? [] : changedParts(partsOf(before, today), partsOf(correction, today));
  return (
    <>
      {retract ? "Taken back" : "Corrected"} {when} by {correction.by.name}:{" "}
      {kindWords[before.kind].toLowerCase()}
      {differences.map(({ label, was, is }, index) => (
        <span key={label}>
          {index === 0 ? ", " : "; "}
          {label} <del>{was ?? "not given"}</del> is {is ?? "not given"}
        </span>
      ))}
      . Reason: “{correction.reason}”.{" "}
    </>
  );
}
