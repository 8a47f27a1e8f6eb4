import {
  type HealingInput,
  type HealingReading,
  type HealingResult,
  healingCurve,
  healingOfOval,
  type OvalHealingInput,
} from "../../domain/healing/index.ts";
import type { Protocol } from "../../domain/protocol/index.ts";
import { calendarDaysBetween, type PlainDate, type RecordedShape } from "../entry/index.ts";
import { clockStartOn } from "./clock.ts";
import { extentOf, type Reading } from "./readings.ts";
import type { StomaStory } from "./story.ts";

/** A stoma's readings as the healing curve takes them: one size where every one was round, otherwise two. */
export type HealingQuestion = {
  /** Day 0 of the answer. */
  clockStartOn: PlainDate;
  /** Known to the day. Where it is false, days count from the first entry: show dates, never a day of recovery. */
  surgeryKnown: boolean;
} & ({ across: "one"; input: HealingInput } | { across: "two"; input: OvalHealingInput });

/** The answer, whether the stoma is round or not. */
export interface Healing
  extends Pick<HealingResult, "fitsUntilDay" | "measureAgainOnDay" | "rising" | "dates" | "notes"> {
  clockStartOn: PlainDate;
  surgeryKnown: boolean;
  /** Curve of the size along the longest direction, and along the narrowest; null where all readings are round. */
  longest: HealingResult;
  narrowest: HealingResult | null;
}

/**
 * What to ask of the healing curve for a stoma; null without a reading.
 * @param opening the opening to judge; by default the one in use
 */
export function healingQuestion(
  stoma: StomaStory,
  opening: RecordedShape | null = stoma.openings.at(-1)?.shape ?? null,
): HealingQuestion | null {
  if (stoma.readings.length === 0) return null;
  const start = clockStartOn(stoma);
  const surgeryKnown = stoma.details.surgeryOn?.precision === "day";
  const about = { clockStartOn: start, surgeryKnown };
  const [lengthMm, widthMm] = opening ? extentOf(opening) : [undefined, undefined];
  const longest = stoma.readings.map((reading) => asInput(reading, reading.longestMm, start));
  if (lengthMm === widthMm && stoma.readings.every(isRound)) {
    const input = {
      surgeryOn: start,
      readings: longest,
      opening: lengthMm ? { diameterMm: lengthMm } : undefined,
    };
    return { ...about, across: "one", input };
  }
  const input = {
    surgeryOn: start,
    lengthReadings: longest,
    widthReadings: stoma.readings.map((reading) => asInput(reading, reading.narrowestMm, start)),
    opening: lengthMm && widthMm ? { lengthMm, widthMm } : undefined,
  };
  return { ...about, across: "two", input };
}

/** The healing curve of a stoma and what it means for an opening; null without a reading. */
export function healingOf(
  stoma: StomaStory,
  protocol: Protocol,
  opening?: RecordedShape | null,
): Healing | null {
  const question = healingQuestion(stoma, opening);
  if (!question) return null;
  const about = { clockStartOn: question.clockStartOn, surgeryKnown: question.surgeryKnown };
  if (question.across === "one") {
    const curve = healingCurve(question.input, protocol);
    return { ...about, ...shared(curve), longest: curve, narrowest: null };
  }
  const oval = healingOfOval(question.input, protocol);
  return { ...about, ...shared(oval), longest: oval.length, narrowest: oval.width };
}

function shared({
  fitsUntilDay,
  measureAgainOnDay,
  rising,
  dates,
  notes,
}: Pick<Healing, "fitsUntilDay" | "measureAgainOnDay" | "rising" | "dates" | "notes">) {
  return { fitsUntilDay, measureAgainOnDay, rising, dates, notes };
}

function isRound({ longestMm, narrowestMm }: Reading): boolean {
  return longestMm === narrowestMm;
}

function asInput(
  { on, method, stepMm, sdMm }: Reading,
  diameterMm: number,
  start: PlainDate,
): HealingReading {
  const step = method === "guide" && stepMm !== undefined ? { stepMm } : {};
  return {
    day: calendarDaysBetween(start, on),
    diameterMm,
    method,
    ...step,
    ...(sdMm === undefined ? {} : { sdMm }),
  };
}
