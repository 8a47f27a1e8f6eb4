import { type Reason, reasonsFor } from "../../domain/attention/index.ts";
import type { PlainDate } from "../../domain/calendar.ts";
import type { Level } from "../../domain/note.ts";
import type { Protocol } from "../../domain/protocol/index.ts";
import type { PersonRow, StomaRow, WearRow } from "../projection/rows.ts";
import type { CaseloadRow } from "../store/store.ts";
import { shortBelowDays } from "../story/index.ts";
import type { ZoneDays } from "./days.ts";

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

/** The line that a stoma's facts make; null where nothing passes a protocol value. */
export function lineFor(
  row: CaseloadRow,
  protocol: Protocol,
  days: ZoneDays,
  on: PlainDate,
): TodayLine | null {
  const { person, stoma, fit } = row;
  const wears = row.wears.map((wear) => ({
    endedOn: days.dayOf(wear.endedMs),
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
  if (!first) return null;
  const shown = wears.map(({ days, planned, shortBelowDays: limit }) => ({
    days,
    planned,
    short: days < limit,
  }));
  return { person, stoma, level: first.level, reasons, wears: shown };
}

function asWorn(wear: WearRow) {
  return {
    closure: wear.closure as "drainable" | "closed" | "tap" | null,
    plannedIntervalDays: wear.plannedIntervalDays,
  };
}
