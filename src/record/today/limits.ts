import { addDays, type PlainDate } from "../../domain/calendar.ts";
import type { CaseloadLimits } from "../store/store.ts";
import { type ClinicStory, shortBelowDays } from "../story/index.ts";
import { daysIn } from "./days.ts";

/** The protocol in force as limits of facts, on one day. */
export function limitsOn(on: PlainDate, { protocol, details }: ClinicStory): CaseloadLimits {
  const measuredBy = (everyDays: number) => addDays(on, protocol.remindAheadDays - everyDays);
  const sinceMs = (windowDays: number) => daysIn(details.timeZone).startMs(addDays(on, 1 - windowDays));
  const below = (closure: "closed" | "drainable") =>
    shortBelowDays({ closure, plannedIntervalDays: null }, protocol);
  return {
    today: on,
    maxGapMm: protocol.maxGapMm,
    newStomaDays: protocol.newStomaDays,
    newMeasuredBy: measuredBy(protocol.measureEveryDaysNew),
    settledMeasuredBy: measuredBy(protocol.measureEveryDaysSettled),
    measureEveryDays: { new: protocol.measureEveryDaysNew, settled: protocol.measureEveryDaysSettled },
    unplanned: { count: protocol.unplannedCount, sinceMs: sinceMs(protocol.unplannedWindowDays) },
    short: { count: protocol.shortWearCount, sinceMs: sinceMs(protocol.shortWearWindowDays) },
    shortBelowDays: {
      shareOfPlan: protocol.shortWearShareOfPlan,
      atMost: protocol.shortWearHours / 24,
      closed: below("closed"),
      other: below("drainable"),
    },
  };
}
