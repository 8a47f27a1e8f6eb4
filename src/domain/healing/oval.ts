import type { Note } from "../note.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { withAdvice } from "./advice.ts";
import { earlierOf, type UnfitDays } from "./fitsUntil.ts";
import { type Analysis, analyse, horizonNotes, withinHorizon } from "./healingCurve.ts";
import { measureAgainOn } from "./measureAgain.ts";
import { ofAxis, openingFailsTogether } from "./notes.ts";
import type { HealingReading } from "./readings.ts";
import type { HealingInput, HealingResult } from "./result.ts";

/** An oval stoma: length (head to foot) and width, each with its own readings. A round opening has both alike. */
export interface OvalHealingInput extends Pick<HealingInput, "surgeryOn" | "maxGapMm" | "prior"> {
  lengthReadings: HealingReading[];
  widthReadings: HealingReading[];
  opening?: { lengthMm: number; widthMm: number };
}

/** Each axis with its own curve; the axis that fails first decides for the opening. */
export interface OvalHealingResult
  extends Pick<HealingResult, "fitsUntilDay" | "measureAgainOnDay" | "rising" | "dates" | "notes"> {
  length: HealingResult;
  width: HealingResult;
}

/**
 * Length and width each follow their own curve; the opening fits as long as both do, so that the largest gap (or the
 * tightest place) decides. The two are taken as independent.
 * @throws InputError where an axis has no reading, or a number that is not finite
 */
export function healingOfOval(
  input: OvalHealingInput,
  protocol: Protocol = defaultProtocol,
): OvalHealingResult {
  const { lengthReadings, widthReadings, opening, ...shared } = input;
  const axis = (readings: HealingReading[], diameterMm: number | undefined) =>
    analyse(
      { ...shared, readings, opening: diameterMm === undefined ? undefined : { diameterMm } },
      protocol,
    );
  const length = axis(lengthReadings, opening?.lengthMm);
  const width = axis(widthReadings, opening?.widthMm);
  const days = [length, width].map(({ measurements }) => measurements.at(-1)!.day);
  const lastDay = Math.min(...days);
  const horizonDay = lastDay + protocol.forecastHorizonDays;
  const unfit = bothUnfit(length, width, input.prior);
  const fitsUntilDay = unfit && withinHorizon(unfit.limits, horizonDay);
  const failing = unfit !== null && unfit.limits.estimate <= lastDay;
  const together = measureAgainOn(lastDay, { fitsUntilDay, isWrongNow: failing }, protocol);
  const facts = {
    length: length.result,
    width: width.result,
    fitsUntilDay,
    measureAgainOnDay: Math.min(together, length.result.measureAgainOnDay, width.result.measureAgainOnDay),
    rising: length.result.rising || width.result.rising,
    notes: [
      ...length.result.notes.filter(concernsBoth).map((note) => ofAxis("length", note)),
      ...width.result.notes.filter(concernsBoth).map((note) => ofAxis("width", note)),
      ...(failing ? [openingFailsTogether(unfit.limits.estimate)] : []),
      ...horizonNotes(fitsUntilDay, horizonDay),
    ],
  };
  return withAdvice(facts, input.surgeryOn);
}

/** Null where either axis has no forecast. */
function bothUnfit(length: Analysis, width: Analysis, prior: "weak" | "none" = "weak"): UnfitDays | null {
  if (length.unfit === null || width.unfit === null) return null;
  return earlierOf(length.unfit, width.unfit, prior === "none" ? "curve" : "draws");
}

/** Advice is given once, for both together; what a curve rests on stays with the curve. */
function concernsBoth({ code }: Note): boolean {
  return !ownNotes.includes(code);
}

const ownNotes = [
  "advisedDays",
  "cutFromReading",
  "beyondHorizon",
  "weakPrior",
  "plainLeastSquares",
  "startNotSeen",
];
