import { type Effective, resolve, standing } from "../effective/index.ts";
import type { BodyOf, Happening, PhotoPurpose, PlainDate, StoredEntry } from "../entry/index.ts";
import { dateOf, sortMs } from "../entry/index.ts";
import type { Kind } from "../entry/kinds/index.ts";
import { type CutOpening, openingsOf } from "./openings.ts";
import { type Reading, readingsOf } from "./readings.ts";
import { type OvertakenSheet, overtakenSheet } from "./sheets.ts";
import { type Change, changesOf, type Wear, wearsOf } from "./wears.ts";

/** How the lists treat a person: asked after, paused while in hospital, or no longer on any list. */
export type Standing = "active" | "paused" | "ended";

/** A stoma's record in the order in which it was lived. */
export interface StomaStory {
  stomaId: string;
  details: BodyOf<"stoma">;
  detailsEntry: Effective<"stoma">;
  standing: Standing;
  readings: Reading[];
  /** Measurements sent from home that no nurse has accepted yet: they count nowhere. */
  awaiting: Reading[];
  openings: CutOpening[];
  systems: Effective<"fitted">[];
  changes: Change[];
  wears: Wear[];
  /** Looks at the skin, oldest first. */
  skin: Effective<"skin">[];
  sheets: Effective<"advised">[];
  /** The sheet to print anew because what it rests on was corrected. */
  overtakenSheet: OvertakenSheet | null;
}

/** A person's whole record with corrections applied. */
export interface PersonStory {
  personId: string;
  details: BodyOf<"person">;
  detailsEntry: Effective<"person">;
  standing: Standing;
  stomas: StomaStory[];
  events: Effective<"event">[];
  notes: Effective<"noted">[];
  /** Markings before surgery and where stomas were made, oldest first. */
  sited: Effective<"sited">[];
  /** The last answer to each purpose that photographs may serve; a purpose nobody asked about is missing. */
  consents: Partial<Record<PhotoPurpose, Effective<"consented">>>;
  /** Every entry, corrected and retracted ones too, newest first. */
  history: Effective[];
}

const ends: readonly Happening[] = ["died", "movedAway"];

/** Tells a person's story from their entries; null when no entry of kind `person` stands. */
export function personStory(entries: readonly StoredEntry[]): PersonStory | null {
  const effective = resolve(entries);
  const detailsEntry = latest(effective, "person");
  if (!detailsEntry?.entry.personId) return null;
  const events = byTime(standing(effective, "event"));
  const personEvents = events.filter(({ entry }) => entry.stomaId === null);
  const personStanding = standingAfter(personEvents);
  const stomaIds = new Set(standing(effective, "stoma").map(({ entry }) => entry.stomaId));
  const stomas = [...stomaIds].flatMap((stomaId) => {
    if (stomaId === null) return [];
    const own = effective.filter(({ entry }) => entry.stomaId === stomaId);
    return [stomaStory(stomaId, own, personStanding)];
  });
  return {
    personId: detailsEntry.entry.personId,
    details: detailsEntry.entry.body,
    detailsEntry,
    standing: personStanding,
    stomas,
    events,
    notes: byTime(standing(effective, "noted")),
    sited: byTime(standing(effective, "sited")),
    consents: consentsOf(byTime(standing(effective, "consented"))),
    history: [...effective].sort(
      (a, b) => sortMs(b.entry.at) - sortMs(a.entry.at) || b.entry.cursor - a.entry.cursor,
    ),
  };
}

/** The cursor up to which a story was told. */
export function readThroughOf({ history }: Pick<PersonStory, "history">): number {
  const cursors = history.flatMap(({ first, corrections }) =>
    [first, ...corrections].map(({ cursor }) => cursor),
  );
  return cursors.reduce((last, cursor) => Math.max(last, cursor), 0);
}

function stomaStory(stomaId: string, own: Effective[], personStanding: Standing): StomaStory {
  const detailsEntry = latest(own, "stoma");
  if (!detailsEntry) throw new Error(`stoma ${stomaId} has no details`);
  const systems = byTime(standing(own, "fitted"));
  const sheets = byTime(standing(own, "advised"));
  const measured = byTime(standing(own, "measured"));
  const surgeryOn = detailsEntry.entry.body.surgeryOn?.date;
  const changes = changesOf(byTime(standing(own, "changed")), systems);
  return {
    stomaId,
    details: detailsEntry.entry.body,
    detailsEntry,
    standing: stomaStanding(personStanding, byTime(standing(own, "event"))),
    readings: readingsOf(
      measured.filter(({ entry }) => !entry.body.unconfirmed),
      surgeryOn,
    ),
    awaiting: readingsOf(
      measured.filter(({ entry }) => entry.body.unconfirmed),
      surgeryOn,
    ),
    skin: byTime(standing(own, "skin")),
    openings: openingsOf(byTime(standing(own, "cut"))),
    systems,
    changes,
    wears: wearsOf(changes),
    sheets,
    overtakenSheet: overtakenSheet(sheets, own),
  };
}

function consentsOf(answers: Effective<"consented">[]): PersonStory["consents"] {
  const last: PersonStory["consents"] = {};
  for (const answer of answers) for (const purpose of answer.entry.body.purposes) last[purpose] = answer;
  return last;
}

function stomaStanding(personStanding: Standing, events: Effective<"event">[]): Standing {
  const reversed = events.some(({ entry }) => entry.body.what === "reversed");
  return reversed ? "ended" : personStanding;
}

/** Died or moved away ends; admitted pauses until discharged. */
function standingAfter(events: Effective<"event">[]): Standing {
  let now: Standing = "active";
  for (const { entry } of events) {
    if (ends.includes(entry.body.what)) return "ended";
    if (entry.body.what === "admitted") now = "paused";
    if (entry.body.what === "discharged") now = "active";
  }
  return now;
}

function latest<K extends Kind>(effective: readonly Effective[], kind: K): Effective<K> | undefined {
  return standing(effective, kind)
    .sort((a, b) => a.first.cursor - b.first.cursor)
    .at(-1);
}

function byTime<K extends Kind>(effective: Effective<K>[]): Effective<K>[] {
  return effective.sort((a, b) => sortMs(a.entry.at) - sortMs(b.entry.at) || a.first.cursor - b.first.cursor);
}

/** The system in use on a date; null before the first was fitted. */
export function systemOn(story: StomaStory, date: PlainDate): Effective<"fitted"> | null {
  return story.systems.filter(({ entry }) => dateOf(entry.at) <= date).at(-1) ?? null;
}
