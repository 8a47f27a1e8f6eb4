import { type Note, note } from "../note.ts";
import type { ChangeSettings } from "./changeSettings.ts";
import { type SealFailure, sealFailures, type Wear } from "./wear.ts";

/** What a change interval is held back to. */
export interface ChangeBound {
  days: number;
  by: "longestWear" | "plannedInterval" | "maximum";
}

/** Says in words what a change interval rests on: the person's wears, the prior, and what bounds it. */
export function changeBasis(
  wears: readonly Wear[],
  personShare: number,
  settings: ChangeSettings,
  bound: ChangeBound | null,
): Note[] {
  return [
    personWears(wears),
    settings.prior ? sharedWithPrior(wears.length, personShare, settings) : wearsAlone(),
    ...(bound ? [boundedBy(bound)] : []),
  ];
}

function personWears(wears: readonly Wear[]): Note {
  if (wears.length === 0)
    return note("noWears", "No wear of this person has been recorded yet.", { wears: 0 });
  const count = (kind: SealFailure) => wears.filter(({ ended }) => ended === kind).length;
  const [leak, underBarrier, sealTrouble] = sealFailures.map(count) as [number, number, number];
  const failures = leak + underBarrier + sealTrouble;
  return note(
    "personWears",
    `${wears.length} ${wears.length === 1 ? "wear" : "wears"} of this person; in ${failures} the seal failed (${leak} leaked past the edge, ${underBarrier} had output under the barrier, ${sealTrouble} ended for itching, burning or lifting).`,
    { wears: wears.length, failures, leak, underBarrier, sealTrouble },
  );
}

function sharedWithPrior(wears: number, personShare: number, { prior, plannedDays }: ChangeSettings): Note {
  const scaleDays = Math.exp(prior!.logScale.mean);
  const shape = Math.exp(prior!.logShape.mean);
  const percent = Math.round(personShare * 100);
  const shares =
    wears === 0
      ? "All that is known about this day comes from the protocol's starting assumption"
      : `Of what is known about this day, about ${percent} % comes from the person's own wears and ${100 - percent} % from the protocol's starting assumption`;
  return note(
    "priorShare",
    `${shares}: left alone, 63 % of seals have failed by day ${shownDays(scaleDays)} (a judgement, not a published mean wear).`,
    { personShare, priorScaleDays: scaleDays, priorShape: shape, plannedDays },
  );
}

function wearsAlone(): Note {
  return note("noPrior", "From the person's own wears alone, without a starting assumption.");
}

function boundedBy({ days, by }: ChangeBound): Note {
  const why = {
    longestWear: "no longer wear has been seen",
    plannedInterval: "no wear has ended yet, so the planned interval stands in for the longest wear seen",
    maximum: "the protocol advises no longer interval",
  }[by];
  return note("bounded", `Held to day ${shownDays(days)}: ${why}.`, { days, by });
}

/** @source teaching texts: change at itching, burning, a leak or a lifted edge (common practice, no source) */
export function changeNowSigns(): Note {
  return note(
    "changeNowSigns",
    "A day to plan by, not a promise: itching, burning, a leak or a lifting edge means change now, whatever the day.",
  );
}

/**
 * The person's own seals failed too early for any interval.
 * @param estimateDays the day the seal itself reaches the target
 * @source changing more often strips skin (common practice, no source)
 */
export function reviewFit(
  { riskTarget, floorDays }: ChangeSettings,
  estimateDays: number,
  longestDays: number,
): Note {
  const floor = shownDays(floorDays);
  const why =
    estimateDays < floorDays
      ? `Keeping the chance of a failing seal at ${Math.round(riskTarget * 100)} % would mean changing before day ${floor}.`
      : `Seals have failed, and none has been seen to hold to day ${floor}.`;
  return note("reviewFit", `${why} Changing more often strips the skin: review the fit instead.`, {
    riskTarget,
    floorDays,
    estimateDays,
    longestDays,
  });
}

/** Nothing has failed, but nothing has been worn for long either. */
export function tooEarlyToSay({ floorDays }: ChangeSettings, longestDays: number): Note {
  return note(
    "tooEarlyToSay",
    `No seal has failed, but too little has been worn to say that one can be left for ${shownDays(floorDays)} days.`,
    { floorDays, longestDays },
  );
}

/** Maximum likelihood has nothing to go by. */
export function tooFewFailures(): Note {
  return note(
    "tooFewFailures",
    "These wears alone do not give a change interval: too few ended in a failing seal, or none outlasted a failure.",
  );
}

function shownDays(days: number): string {
  return String(Number(days.toFixed(days < 2 ? 2 : 1)));
}
