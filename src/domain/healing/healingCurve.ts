import type { Note } from "../note.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { withAdvice } from "./advice.ts";
import { settledDay } from "./curve.ts";
import { type CurveEstimate, plainEstimate, weakEstimate } from "./estimate.ts";
import { type UnfitDays, unfitDays } from "./fitsUntil.ts";
import { type Limits, limitsOf } from "./limits.ts";
import { measureAgainOn } from "./measureAgain.ts";
import * as notes from "./notes.ts";
import { openingNotes } from "./openingNotes.ts";
import { type Measurement, measurementsOf } from "./readings.ts";
import type { FitsUntil, ForecastDay, HealingInput, HealingResult } from "./result.ts";
import { hasLargerRing, riseOf } from "./rising.ts";

/** A chart needs no more days than this; a longer record is shown in coarser steps. */
const MOST_FORECAST_DAYS = 400;

/** Past this many time constants the readings hold less than a twentieth of the swelling. */
const SWELLING_OVER = 3;

/**
 * The curve of the size across, what it means for the opening in use, and when to measure again.
 * @throws InputError where there is no reading, or a number that is not finite
 */
export function healingCurve(input: HealingInput, protocol: Protocol = defaultProtocol): HealingResult {
  return analyse(input, protocol).result;
}

/** The result, with what an oval needs to combine two of them. */
export interface Analysis {
  result: HealingResult;
  measurements: Measurement[];
  unfit: UnfitDays | null;
}

export function analyse(input: HealingInput, protocol: Protocol): Analysis {
  const measurements = measurementsOf(input.readings, protocol);
  const maxGapMm = input.maxGapMm ?? protocol.maxGapMm;
  const lastDay = measurements.at(-1)!.day;
  const horizonDay = lastDay + protocol.forecastHorizonDays;
  const { estimate, reasons } = estimateOf(input, measurements, protocol);
  const forecasting = reasons.length === 0 ? estimate : null;
  const rise = riseOf(measurements, protocol);
  const shrinks = rise === null || input.prior === "none";
  const unfit =
    forecasting && shrinks ? unfitOf(forecasting, input.opening?.diameterMm, maxGapMm, measurements) : null;
  const fitsUntilDay = unfit && withinHorizon(unfit.limits, horizonDay);
  const settled = forecasting && settledOn(forecasting, measurements[0]!.day, protocol.settledWithinMm);
  const aboutOpening = openingNotes(input.opening?.diameterMm, maxGapMm, measurements, forecasting, unfit);
  const isWrongNow = rise !== null || aboutOpening.some(({ code }) => notes.openingFails.includes(code));
  const result = {
    startMm: estimate?.curve.startMm ?? null,
    finalMm: estimate?.curve.finalMm ?? null,
    timeConstantDays: estimate?.curve.timeConstantDays ?? null,
    standardErrors: estimate?.standardErrors ?? null,
    residualSdMm: estimate?.residualSdMm ?? null,
    forecast: forecasting && forecastDays(forecasting, measurements, protocol.forecastAheadDays),
    settledOnDay: settled !== null && settled <= horizonDay ? settled : null,
    fitsUntilDay,
    measureAgainOnDay: measureAgainOn(lastDay, { fitsUntilDay, isWrongNow }, protocol),
    rising: rise !== null,
    notes: [
      ...reasons,
      ...(rise ? [notes.rising(rise)] : hasLargerRing(measurements, protocol) ? [notes.largerRing()] : []),
      ...(shrinks || input.opening === undefined ? [] : [notes.noFitWhileRising()]),
      ...aboutOpening,
      ...horizonNotes(fitsUntilDay, horizonDay),
      ...(settled !== null && settled > horizonDay ? [notes.settledBeyondHorizon(horizonDay)] : []),
      ...basisNotes(input, estimate, measurements[0]!.day),
    ],
  };
  return { result: withAdvice(result, input.surgeryOn), measurements, unfit };
}

/** The estimate where there is one, and every reason why no forecast may rest on it. */
function estimateOf(
  { prior = "weak", startMm }: HealingInput,
  measurements: readonly Measurement[],
  protocol: Protocol,
): { estimate: CurveEstimate | null; reasons: Note[] } {
  if (prior === "none") {
    const estimate = plainEstimate(measurements, startMm);
    if (estimate === null) return { estimate, reasons: [notes.noCurve()] };
    return { estimate, reasons: estimate.sizeOn ? [] : [notes.noDegreesOfFreedom(measurements.length)] };
  }
  const days = measurements.at(-1)!.day - measurements[0]!.day;
  const isOneSize = days === 0 && (startMm === undefined || measurements[0]!.day === 0);
  const { forecastMinReadings, forecastMinDays } = protocol;
  return {
    estimate: isOneSize ? null : weakEstimate(measurements, protocol, startMm),
    reasons: [
      ...(measurements.length < forecastMinReadings
        ? [notes.tooFewReadings(measurements.length, forecastMinReadings)]
        : []),
      ...(days < forecastMinDays ? [notes.tooShortSpan(days, forecastMinDays)] : []),
      ...(isOneSize ? [notes.oneDayOnly()] : []),
    ],
  };
}

function unfitOf(
  estimate: CurveEstimate,
  openingMm: number | undefined,
  maxGapMm: number,
  measurements: readonly Measurement[],
): UnfitDays | null {
  if (openingMm === undefined) return null;
  const firstDay = measurements[0]!.day;
  return unfitDays(estimate, { openingMm, maxGapMm, firstDay, lastDay: measurements.at(-1)!.day });
}

/** Limits of a day, null where they lie past the horizon. */
export function withinHorizon({ estimate, lower80, upper80 }: Limits, horizonDay: number): FitsUntil {
  const named = (day: number) => (day <= horizonDay ? day : null);
  return { estimate: named(estimate), lower80: named(lower80), upper80: named(upper80) };
}

export function horizonNotes(fitsUntilDay: FitsUntil | null, horizonDay: number): Note[] {
  const limits = ["lower80", "estimate", "upper80"] as const;
  const first = limits.find((limit) => fitsUntilDay?.[limit] === null);
  return first ? [notes.beyondHorizon(first, horizonDay)] : [];
}

/** The day from which the size stays near its final one, no earlier than the first reading. */
function settledOn({ curve, draws, middle }: CurveEstimate, firstDay: number, withinMm: number): number {
  if (middle === "curve") return Math.max(firstDay, settledDay(curve, withinMm));
  return limitsOf(draws.map((draw) => Math.max(firstDay, settledDay(draw, withinMm)))).estimate;
}

function forecastDays(
  { sizeOn }: CurveEstimate,
  measurements: readonly Measurement[],
  aheadDays: number,
): ForecastDay[] | null {
  if (sizeOn === null) return null;
  const from = Math.ceil(measurements[0]!.day);
  const to = Math.floor(measurements.at(-1)!.day) + aheadDays;
  const step = Math.max(1, Math.ceil((to - from) / MOST_FORECAST_DAYS));
  return Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, i) => {
    const day = from + i * step;
    const { estimate, lower80, upper80 } = sizeOn(day);
    return { day, mm: estimate, lower80, upper80 };
  });
}

/** What the figures rest on. */
function basisNotes(
  { prior, startMm }: HealingInput,
  estimate: CurveEstimate | null,
  firstDay: number,
): Note[] {
  if (estimate === null) return [];
  const isStartSeen = startMm !== undefined || firstDay <= SWELLING_OVER * estimate.curve.timeConstantDays;
  return [
    prior === "none" ? notes.plainLeastSquares() : notes.weakPrior(),
    ...(isStartSeen ? [] : [notes.startNotSeen(firstDay)]),
  ];
}
