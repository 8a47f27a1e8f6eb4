import { byUrgency, type Reason, reasonsFor } from "../../domain/attention/index.ts";
import { addDays, type PlainDate } from "../../domain/calendar.ts";
import type { Level } from "../../domain/note.ts";
import type { Protocol } from "../../domain/protocol/index.ts";
import { dateOf, todayIn } from "../entry/index.ts";
import type { PersonRow, StomaRow, WearRow } from "../projection/rows.ts";
import type { CaseloadRow, RecordStore } from "../store/store.ts";
import type { ClinicStory } from "../story/index.ts";
import { shortBelowDays } from "../story/index.ts";

const dayMs = 86_400_000;

/** One person to see or call. */
export interface TodayLine {
  person: PersonRow;
  stoma: StomaRow;
  /** The most urgent of the reasons. */
  level: Exclude<Level, "none">;
  reasons: Reason[];
  /** Wears that ended in the window the protocol looks at, oldest first, days. */
  wears: { days: number; planned: boolean; short: boolean }[];
}

export interface Today {
  on: PlainDate;
  lines: TodayLine[];
  /** People for whom nothing passes a protocol value. */
  others: number;
}

/** Whom to see or call and why, most urgent first. */
export async function todayList(store: RecordStore, clinic: ClinicStory, nowMs: number): Promise<Today> {
  const { protocol, details, clinicId } = clinic;
  const on = todayIn(details.timeZone, nowMs);
  const windowDays = Math.max(protocol.shortWearWindowDays, protocol.unplannedWindowDays);
  const measuredBy = (everyDays: number) => addDays(on, protocol.remindAheadDays - everyDays);
  const [rows, counts] = await Promise.all([
    store.caseload(clinicId, {
      newSince: addDays(on, -protocol.newStomaDays - protocol.measureEveryDaysSettled),
      newMeasuredBy: measuredBy(protocol.measureEveryDaysNew),
      settledMeasuredBy: measuredBy(protocol.measureEveryDaysSettled),
      maxGapMm: protocol.maxGapMm,
      today: on,
      wearsSinceMs: nowMs - (windowDays + 1) * dayMs,
    }),
    store.counts(clinicId),
  ]);
  const lines = rows.flatMap((row) => lineFor(row, protocol, details.timeZone, on)).sort(lineOrder);
  const named = new Set(lines.map(({ person }) => person.personId));
  return { on, lines, others: counts.active - named.size };
}

function lineFor(row: CaseloadRow, protocol: Protocol, zone: string, on: PlainDate): TodayLine[] {
  const { person, stoma, fit } = row;
  const wears = row.wears.map((wear) => ({
    endedOn: dateOf({ instant: new Date(wear.endedMs).toISOString(), zone }),
    days: wear.hours / 24,
    planned: wear.why === "planned",
    shortBelowDays: shortBelowDays(asWorn(wear), protocol),
  }));
  const { widestGapMm, narrowestGapMm, widestAtHour } = stoma;
  const reasons = reasonsFor(
    {
      clockStartOn: stoma.clockStartOn,
      lastMeasuredOn: stoma.lastMeasuredOn,
      gap:
        widestGapMm === null || narrowestGapMm === null
          ? null
          : { widestMm: widestGapMm, narrowestMm: narrowestGapMm, widestAtHour: widestAtHour ?? 12 },
      fitsUntilOn: fit?.fitsUntilOn ?? null,
      wears,
    },
    protocol,
    on,
  );
  const [first] = reasons;
  if (!first) return [];
  const shown = wears.map(({ days, planned, shortBelowDays: limit }) => ({
    days,
    planned,
    short: days < limit,
  }));
  return [{ person, stoma, level: first.level, reasons, wears: shown }];
}

function asWorn(wear: WearRow) {
  return {
    closure: wear.closure as "drainable" | "closed" | "tap" | null,
    plannedIntervalDays: wear.plannedIntervalDays,
  };
}

function lineOrder(a: TodayLine, b: TodayLine): number {
  return (
    byUrgency(a.reasons[0]!, b.reasons[0]!) || a.person.searchText.localeCompare(b.person.searchText, "en")
  );
}
