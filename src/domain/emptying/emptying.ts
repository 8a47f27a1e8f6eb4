import type { Note } from "../note.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { type TimesOfDay, timesOfDay } from "../timesOfDay/index.ts";
import { type Band, courseOf } from "./course.ts";
import type { Filling } from "./filling.ts";
import { outputModel } from "./model.ts";
import { type Night, nightAhead } from "./night.ts";
import { basisOf, notesOn } from "./notes.ts";
import { type QuietHours, quietHours } from "./quietHours.ts";

export const stomaTypes = ["ileostomy", "colostomy", "urostomy", "fistula", "other"] as const;
export type StomaType = (typeof stomaTypes)[number];

/** One emptying, or a letting out of gas. */
export interface Empty {
  /** ISO 8601 instant. */
  at: string;
  /** How full the pouch (or night bag) was, 0 to 1: an estimate, with its own error. */
  fraction?: number;
  volumeMl?: number;
  /** Gas was let out. With neither fraction nor volume nothing else was; with a fraction, gas was part of it. */
  gas?: boolean;
  /** What was emptied; the pouch when left out. */
  from?: "pouch" | "nightBag";
}

export interface EmptyingInput {
  stomaType: StomaType;
  /** In any order. A change empties the pouch too, and belongs here. */
  empties: readonly Empty[];
  pouchCapacityMl: number;
  night: "pouch" | "nightBag";
  nightCapacityMl?: number;
  /** ISO 8601 instant; not before the last of `empties`. Everything ahead is counted from here. */
  lastEmptiedAt: string;
  /** Clock times `HH:MM`. */
  sleep: { from: string; to: string };
  /** When nothing was logged, whatever happened. */
  logGaps?: readonly { from: string; to: string }[];
  /** IANA time zone in which the person lives. */
  timeZone: string;
}

/** Instants at which the chance reaches a tenth, a half and nine tenths; null where not before the horizon. */
export interface Reached {
  p10: string | null;
  p50: string | null;
  p90: string | null;
}

export interface EmptyingForecast {
  /** Level of every band and of p10 to p90. */
  level: 0.8;
  /** Mean output a day, with the band in which this person's own mean lies. */
  meanDailyMl: number | null;
  dailyBandMl: Band | null;
  /** By the hour of the person's clock, from midnight; they add up to the day. */
  rateByHourMl: number[] | null;
  bandByHourMl: Band[] | null;
  reachesThirdAt: Reached | null;
  reachesHalfAt: Reached | null;
  night: Night | null;
  quietHours: QuietHours[] | null;
  /** When the person empties. */
  emptiedAt: TimesOfDay;
  basis: Note[];
  notes: Note[];
}

/**
 * What a log of emptyings tells of the hours ahead: output round the clock, when the pouch fills, the night, and the
 * hours quiet enough for a change. With less than the protocol's hours of log every figure is null and a note says so.
 */
export function emptying(input: EmptyingInput, protocol: Protocol = defaultProtocol): EmptyingForecast {
  const model = outputModel(input, protocol);
  const emptiedAt = timesOfDay(model.emptiedMs.map(model.clock.hourAt));
  const basis = basisOf(model);
  if (!model.known) return { ...nothingKnown, emptiedAt, basis, notes: notesOn(model, null, protocol) };
  const { filling, posterior, days } = model.known;
  const course = courseOf(posterior, days);
  const reachesHalfAt = reachedAt(filling, input.pouchCapacityMl * protocol.emptyNowShare);
  return {
    level: 0.8,
    meanDailyMl: course.dailyMl,
    dailyBandMl: course.dailyBandMl,
    rateByHourMl: course.byHourMl,
    bandByHourMl: course.bandByHourMl,
    reachesThirdAt: reachedAt(filling, input.pouchCapacityMl * protocol.emptyAtShare),
    reachesHalfAt,
    night: nightAhead(input, model.clock, model.known.fillingFrom, protocol),
    quietHours: quietHours(input.sleep, posterior, days, protocol),
    emptiedAt,
    basis,
    notes: notesOn(model, reachesHalfAt, protocol),
  };
}

const nothingKnown = {
  level: 0.8,
  meanDailyMl: null,
  dailyBandMl: null,
  rateByHourMl: null,
  bandByHourMl: null,
  reachesThirdAt: null,
  reachesHalfAt: null,
  night: null,
  quietHours: null,
} as const;

function reachedAt(filling: Filling, volumeMl: number): Reached {
  const at = (chance: number) => {
    const ms = filling.reachedAt(volumeMl, chance);
    return ms === null ? null : new Date(ms).toISOString();
  };
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}
