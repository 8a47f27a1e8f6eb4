import type {
  CaseloadLimits,
  CaseloadPlace,
  CaseloadRow,
  CaseloadSearch,
  RecordStore,
} from "../store/store.ts";
import type { TodayLine } from "./line.ts";
import { byPlace, placeOf } from "./order.ts";

/** Searches by the level of what they find: those of a later level are not begun before the earlier is read out. */
const searches: CaseloadSearch[][] = [
  ["fitEnded", "tooSmall", "tooLarge"],
  ["settledDue", "newDue", "unplanned", "short"],
];

interface Caseload {
  store: RecordStore;
  clinicId: string;
  limits: CaseloadLimits;
  /** The line that a stoma's facts make, if any. */
  judge: (row: CaseloadRow) => TodayLine | null;
  wearsSinceMs: number;
}

/** How far one search has been read. */
interface Reading {
  search: CaseloadSearch;
  /** Where the next piece begins; null at the beginning. */
  after: CaseloadPlace | null;
  done: boolean;
  /** Lines in the next piece: few at first, since a few may be enough to know that others come before. */
  atOnce: number;
}

const atFirst = 8;

/**
 * The next lines after a place, in the order of the list. Every search is in that order too, and every line is found
 * by the search of its most urgent reason at the line's own place. So what is found up to the place that each search
 * has been read to is complete, and no search is read further than these lines need.
 */
export async function linesAfter(
  caseload: Caseload,
  after: CaseloadPlace | null,
  count: number,
): Promise<TodayLine[]> {
  const judged = new Map<string, TodayLine | null>();
  let lines: TodayLine[] = [];
  for (const ofLevel of searches) {
    const readings = ofLevel.map((search): Reading => ({ search, after, done: false, atOnce: atFirst }));
    lines = await readLevel(caseload, readings, judged, after, count);
    if (lines.length === count) return lines;
  }
  return lines;
}

/** Reads searches until there are lines enough, with those of earlier levels, or no more. */
async function readLevel(
  caseload: Caseload,
  readings: Reading[],
  judged: Map<string, TodayLine | null>,
  after: CaseloadPlace | null,
  count: number,
): Promise<TodayLine[]> {
  while (true) {
    const next = leastRead(readings);
    const complete = [...judged.values()]
      .filter((line) => line !== null)
      .filter((line) => isBetween(placeOf(line), after, next))
      .sort((a, b) => byPlace(placeOf(a), placeOf(b)));
    if (!next || complete.length >= count) return complete.slice(0, count);
    await readOn(caseload, next, judged, Math.min(count, next.atOnce));
    next.atOnce *= 4;
  }
}

/** The search that the next line may still come from: the one read to the most urgent place. */
function leastRead(readings: readonly Reading[]): Reading | null {
  const open = readings.filter(({ done }) => !done);
  return open.reduce<Reading | null>((least, reading) => {
    if (!least) return reading;
    if (least.after === null) return least;
    return reading.after === null || byPlace(reading.after, least.after) < 0 ? reading : least;
  }, null);
}

function isBetween(place: CaseloadPlace, after: CaseloadPlace | null, next: Reading | null): boolean {
  if (after && byPlace(place, after) <= 0) return false;
  return !next || (next.after !== null && byPlace(place, next.after) <= 0);
}

/** Reads a piece of one search, and the facts of those whom no other search has found yet. */
async function readOn(
  { store, clinicId, limits, judge, wearsSinceMs }: Caseload,
  reading: Reading,
  judged: Map<string, TodayLine | null>,
  limit: number,
): Promise<void> {
  const page = { after: reading.after, limit };
  const places = await store.caseload(clinicId, reading.search, limits, page);
  reading.done = places.length < limit;
  reading.after = places.at(-1) ?? reading.after;
  const fresh = places.map(({ stomaId }) => stomaId).filter((id) => !judged.has(id));
  for (const id of fresh) judged.set(id, null);
  for (const row of await store.caseloadFacts(clinicId, fresh, wearsSinceMs)) {
    judged.set(row.stoma.stomaId, judge(row));
  }
}
