import type { PlainDate } from "../../domain/calendar.ts";
import { todayIn } from "../entry/index.ts";
import type { CaseloadPlace, RecordStore } from "../store/store.ts";
import type { ClinicStory } from "../story/index.ts";
import { daysIn } from "./days.ts";
import { limitsOn } from "./limits.ts";
import { lineFor, type TodayLine } from "./line.ts";
import { placeOf } from "./order.ts";
import { linesAfter } from "./page.ts";

export type { TodayLine } from "./line.ts";

export interface Today {
  on: PlainDate;
  lines: TodayLine[];
  /** Pass to get the following lines; null at the end of the list. */
  next: string | null;
  /** People on the whole list, each counted once, at the most urgent level. */
  people: Record<CaseloadPlace["level"], number>;
  /** People for whom nothing passes a protocol value. */
  others: number;
}

export interface TodayQuery {
  /** The `next` of the lines before. */
  after?: string | null;
  limit?: number;
}

/** Lines at once; more than most clinics ever have. */
const usualLimit = 200;

/**
 * Whom to see or call and why, most urgent first.
 * @throws {Error} where `after` is no `next` of a list
 */
export async function todayList(
  store: RecordStore,
  clinic: ClinicStory,
  nowMs: number,
  { after = null, limit = usualLimit }: TodayQuery = {},
): Promise<Today> {
  const { protocol, details, clinicId } = clinic;
  const on = todayIn(details.timeZone, nowMs);
  const limits = limitsOn(on, clinic);
  const caseload = {
    store,
    clinicId,
    limits,
    wearsSinceMs: Math.min(limits.unplanned.sinceMs, limits.short.sinceMs),
    judge: (row: Parameters<typeof lineFor>[0]) => lineFor(row, protocol, daysIn(details.timeZone), on),
  };
  const [found, people, counts] = await Promise.all([
    placeIn(store, clinicId, after).then((place) => linesAfter(caseload, place, limit + 1)),
    store.caseloadCounts(clinicId, limits),
    store.counts(clinicId),
  ]);
  const lines = found.slice(0, limit);
  return {
    on,
    lines,
    next: found.length > limit ? nextAfter(lines.at(-1)!) : null,
    people,
    others: counts.active - people.sameDay - people.nextContact,
  };
}

/** Without the name: it stands in addresses. */
function nextAfter(line: TodayLine): string {
  const { level, waitedDays, stomaId } = placeOf(line);
  return JSON.stringify([level, waitedDays, stomaId]);
}

/** Whoever is off every list by now has no name to go on from: some lines may then be read a second time. */
async function placeIn(
  store: RecordStore,
  clinicId: string,
  after: string | null,
): Promise<CaseloadPlace | null> {
  if (after === null) return null;
  const { level, waitedDays, stomaId } = parsePlace(after);
  const [row] = await store.caseloadFacts(clinicId, [stomaId], Number.MAX_SAFE_INTEGER);
  return { level, waitedDays, searchText: row?.person.searchText ?? "", stomaId };
}

/** Reads the `next` of a list. @throws {Error} where it is none */
export function parsePlace(text: string): Omit<CaseloadPlace, "searchText"> {
  const read: unknown = JSON.parse(text);
  const [level, waitedDays, stomaId] = Array.isArray(read) ? read : [];
  const isPlace =
    (level === "sameDay" || level === "nextContact") &&
    Number.isFinite(waitedDays) &&
    typeof stomaId === "string";
  if (!isPlace) throw new Error("this is no place in the list for today");
  return { level, waitedDays, stomaId };
}
