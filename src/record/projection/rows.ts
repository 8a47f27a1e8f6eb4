import type { ExposedSkin } from "../../domain/exposed/index.ts";
import type { StoredEntry } from "../entry/index.ts";
import { clockStartOn, gapBetween, personStory, type StomaStory, type Wear } from "../story/index.ts";

/** Facts of one person for lists and search. */
export interface PersonRow {
  personId: string;
  name: string;
  /** Name and identifier folded for searching: lower case, no accents. */
  searchText: string;
  birthDate: string | null;
  identifier: string | null;
  standing: "active" | "paused" | "ended";
  lastEntryMs: number;
}

/** Facts of one stoma; verdicts are made from them at query time. */
export interface StomaRow {
  stomaId: string;
  personId: string;
  type: string;
  construction: string;
  label: string | null;
  standing: "active" | "paused" | "ended";
  /** Where it is known to the day. */
  surgeryOn: string | null;
  clockStartOn: string;
  lastMeasuredOn: string | null;
  lastLongestMm: number | null;
  lastNarrowestMm: number | null;
  openingSince: string | null;
  widestGapMm: number | null;
  narrowestGapMm: number | null;
  widestAtHour: number | null;
  systemName: string | null;
}

/** Facts of one ended wear. */
export interface WearRow {
  wearId: string;
  stomaId: string;
  personId: string;
  endedMs: number;
  hours: number;
  why: string;
  closure: string | null;
  plannedIntervalDays: number | null;
}

/** A stoma with what its gap was measured between: the entries of the reading and of the opening. */
export interface ProjectedStoma extends StomaRow {
  gapOf: string | null;
}

type Gap = Pick<StomaRow, "widestGapMm" | "narrowestGapMm" | "widestAtHour">;

/** Gaps that were measured before. Entries never change, and measuring is most of what a projection costs. */
export type KnownGaps = ReadonlyMap<string, Gap>;

export interface PersonProjection {
  person: PersonRow;
  stomas: ProjectedStoma[];
  wears: WearRow[];
}

/** Everything the lists keep of one person, computed from their entries alone; null without a person entry. */
export function projectPerson(
  entries: readonly StoredEntry[],
  knownGaps: KnownGaps = new Map(),
): PersonProjection | null {
  const story = personStory(entries);
  if (!story) return null;
  const { personId, details } = story;
  return {
    person: {
      personId,
      name: details.name,
      searchText: folded(`${details.name} ${details.identifier ?? ""}`),
      birthDate: details.birthDate ?? null,
      identifier: details.identifier ?? null,
      standing: story.standing,
      lastEntryMs: entries.reduce((last, { recordedAt }) => Math.max(last, Date.parse(recordedAt)), 0),
    },
    stomas: story.stomas.map((stoma) => stomaRow(personId, stoma, knownGaps)),
    wears: story.stomas.flatMap((stoma) =>
      stoma.wears.flatMap((wear) => wearRow(personId, stoma.stomaId, wear)),
    ),
  };
}

/** Letters that no accent can be taken from, as they are typed where a keyboard lacks them. */
const plainLetters: Record<string, string> = {
  ß: "ss",
  æ: "ae",
  œ: "oe",
  ø: "o",
  đ: "d",
  ð: "d",
  ħ: "h",
  ı: "i",
  ł: "l",
  þ: "th",
};

/** Lower case without accents, so that search finds a name however it was typed. */
export function folded(text: string): string {
  return text
    .normalize("NFD")
    .replace(/\p{Diacritic}/gu, "")
    .toLocaleLowerCase("en")
    .replace(/[ßæœøđðħıłþ]/g, (letter) => plainLetters[letter] ?? letter);
}

function stomaRow(personId: string, stoma: StomaStory, knownGaps: KnownGaps): ProjectedStoma {
  const { details, stomaId } = stoma;
  const last = stoma.readings.at(-1);
  const opening = stoma.openings.at(-1);
  const gapOf = last && opening ? `${last.source.entry.id} ${opening.source.entry.id}` : null;
  const gap = gapOf === null ? noGap : (knownGaps.get(gapOf) ?? gapFrom(gapBetween(last!, opening!)));
  return {
    stomaId,
    personId,
    type: details.type,
    construction: details.construction,
    label: details.label ?? null,
    standing: stoma.standing,
    surgeryOn: details.surgeryOn?.precision === "day" ? details.surgeryOn.date : null,
    clockStartOn: clockStartOn(stoma),
    lastMeasuredOn: last?.on ?? null,
    lastLongestMm: last?.longestMm ?? null,
    lastNarrowestMm: last?.narrowestMm ?? null,
    openingSince: opening?.from ?? null,
    ...gap,
    gapOf,
    systemName: stoma.systems.at(-1)?.entry.body.system.name ?? null,
  };
}

const noGap: Gap = { widestGapMm: null, narrowestGapMm: null, widestAtHour: null };

function gapFrom({ maxGapMm, minGapMm, byClockHour }: ExposedSkin): Gap {
  const widest = byClockHour.reduce((a, b) =>
    (b.maxGapMm ?? -Infinity) > (a.maxGapMm ?? -Infinity) ? b : a,
  );
  return {
    widestGapMm: inHundredths(maxGapMm),
    narrowestGapMm: inHundredths(minGapMm),
    widestAtHour: widest.hour,
  };
}

/** Outlines are no more exact than this, and an opening cut at the limit itself must not pass it by rounding. */
function inHundredths(mm: number): number {
  return Math.round(mm * 100) / 100 || 0;
}

function wearRow(personId: string, stomaId: string, wear: Wear): WearRow[] {
  if (wear.endMs === null || wear.why === null) return [];
  return [
    {
      wearId: wear.startId,
      stomaId,
      personId,
      endedMs: wear.endMs,
      hours: (wear.endMs - wear.startMs) / 3_600_000,
      why: wear.why,
      closure: wear.closure,
      plannedIntervalDays: wear.plannedIntervalDays,
    },
  ];
}
