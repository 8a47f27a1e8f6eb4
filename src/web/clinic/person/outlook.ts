import { measureDueOn, type Reason, reasonsFor, type StomaFacts } from "../../../domain/attention/index.ts";
import type { PlainDate } from "../../../domain/calendar.ts";
import type { Protocol } from "../../../domain/protocol/index.ts";
import {
  clockStartOn,
  gapBetween,
  type Healing,
  type StomaStory,
  shortBelowDays,
  wornDays,
} from "../../../record/story/index.ts";
import { dayIn } from "../../shared/words/index.ts";

/** What the record says of one stoma today. */
export interface Outlook {
  healing: Healing | null;
  gap: StomaFacts["gap"];
  reasons: Reason[];
  measureBy: PlainDate;
}

/** The verdicts of the day, made from the same facts as the list of Today. */
export function outlookOf(
  stoma: StomaStory,
  healing: Healing | null,
  { protocol, zone, today, nowMs }: { protocol: Protocol; zone: string; today: PlainDate; nowMs: number },
): Outlook {
  const facts = factsOf(stoma, healing, { protocol, zone, nowMs });
  const { dueOn } = measureDueOn(facts, protocol);
  const advised = healing?.dates?.measureAgainOn;
  return {
    healing,
    gap: facts.gap,
    reasons: stoma.standing === "active" ? reasonsFor(facts, protocol, today) : [],
    measureBy: advised !== undefined && advised < dueOn ? advised : dueOn,
  };
}

function factsOf(
  stoma: StomaStory,
  healing: Healing | null,
  { protocol, zone, nowMs }: { protocol: Protocol; zone: string; nowMs: number },
): StomaFacts {
  const reading = stoma.readings.at(-1);
  return {
    clockStartOn: clockStartOn(stoma),
    lastMeasuredOn: reading?.on ?? null,
    gap: gapNow(stoma),
    fitsUntilOn: healing?.dates?.fitsUntilOn ?? null,
    wears: stoma.wears.flatMap((wear) =>
      wear.endMs === null || wear.why === null
        ? []
        : [
            {
              endedOn: dayIn(zone, wear.endMs),
              days: wornDays(wear, nowMs),
              planned: wear.why === "planned",
              shortBelowDays: shortBelowDays(wear, protocol),
            },
          ],
    ),
  };
}

/** How the opening in use lies round the stoma as it was last measured. */
function gapNow({ readings, openings }: StomaStory): StomaFacts["gap"] {
  const reading = readings.at(-1);
  const opening = openings.at(-1);
  if (!reading || !opening) return null;
  const { maxGapMm, minGapMm, byClockHour } = gapBetween(reading, opening);
  const widest = byClockHour.reduce((a, b) =>
    (b.maxGapMm ?? -Infinity) > (a.maxGapMm ?? -Infinity) ? b : a,
  );
  return { widestMm: maxGapMm, narrowestMm: minGapMm, widestAtHour: widest.hour };
}
