import type { Note } from "../note.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { type ChangeIntervalInput, type ChangeSettings, changeSettings } from "./changeSettings.ts";
import {
  type ChangeBound,
  changeBasis,
  changeNowSigns,
  reviewFit,
  tooEarlyToSay,
  tooFewFailures,
} from "./changeWords.ts";
import { forecastLevel, type Limited } from "./confidence.ts";
import { type Lifetimes, lifetimesOf } from "./lifetimes.ts";
import { type WearPrior, wearPosterior } from "./posterior.ts";
import { dayOfMeanRisk, meanRisk, quantileOfOwnDay, varianceOfLogOwnDay } from "./posteriorRisk.ts";
import { sealFailures, type Wear } from "./wear.ts";
import { weibullFit, weibullQuantile } from "./weibullFit.ts";
import { weibullLives } from "./weibullLikelihood.ts";

/** The latest day for a planned change that keeps the chance of a failing seal within the target. */
export interface ChangeInterval extends Limited {
  /** Level of lower and upper: 0.8. */
  level: number;
  riskTarget: number;
  /** Chance that the seal fails before the estimate. */
  riskAtEstimate: number | null;
  /** The day the seal itself reaches the target, before floor and bounds, with its 80 % limits. */
  unbounded: Limited;
  /** What holds the estimate back, if anything does. */
  boundBy: ChangeBound["by"] | null;
  /** Share of the certainty about the day that the person's own wears have brought, 0 to 1. */
  personShare: number;
  basis: Note[];
  notes: Note[];
}

/**
 * Works out a change interval from a person's wears and a weak prior. Leaks past the edge, output under the
 * barrier, and itching or lifting that ended a wear all count as a failing seal; any other ending is a seal
 * that had held until then. The estimate is the day at which the posterior mean risk reaches the target, the
 * limits an 80 % credible interval of the person's own such day. All three are held to the longest wear seen
 * (the planned interval while no wear has ended) and to the protocol's maximum. Below the floor they are
 * null: the fit needs a review, not more changes. Model and calibration: docs/change-interval.md
 */
export function changeInterval(
  input: ChangeIntervalInput,
  protocol: Protocol = defaultProtocol,
): ChangeInterval {
  const settings = changeSettings(input, protocol);
  const lifetimes = lifetimesOf(input.wears, sealFailures);
  const own = settings.prior
    ? ownDayPooled(lifetimes, settings.riskTarget, settings.prior)
    : ownDayAlone(lifetimes, settings.riskTarget);
  const bound = boundOf(input.wears, lifetimes, settings);
  const advised = own && heldTo(bound.days, own, settings.floorDays);
  const isBound = own !== null && own.estimate > bound.days;
  const personShare = own?.personShare ?? 0;
  return {
    ...(advised ?? nothing),
    level: forecastLevel,
    riskTarget: settings.riskTarget,
    riskAtEstimate: own && advised ? own.riskBy(advised.estimate) : null,
    unbounded: own
      ? { estimate: own.estimate, lower: own.quantile(tail), upper: own.quantile(1 - tail) }
      : nothing,
    boundBy: isBound ? bound.by : null,
    personShare,
    basis: changeBasis(input.wears, personShare, settings, isBound ? bound : null),
    notes: [advised ? changeNowSigns() : whyNoInterval(own, lifetimes, settings)],
  };
}

const nothing: Limited = { estimate: null, lower: null, upper: null };

/** Probability left out on either side of an interval. */
const tail = (1 - forecastLevel) / 2;

/** What is believed of the day at which the person's own risk reaches the target. */
interface OwnDay {
  estimate: number;
  /** The day that the own day does not pass with probability p. */
  quantile: (p: number) => number;
  /** Chance that a new seal fails by a day. */
  riskBy: (days: number) => number;
  personShare: number;
}

function ownDayPooled(lifetimes: Lifetimes, riskTarget: number, prior: WearPrior): OwnDay {
  const posterior = wearPosterior(weibullLives(lifetimes), prior);
  const varianceLeft = varianceOfLogOwnDay(posterior, riskTarget) / priorVariance(prior, riskTarget);
  return {
    estimate: dayOfMeanRisk(posterior, riskTarget),
    quantile: (p) => quantileOfOwnDay(posterior, riskTarget, p),
    riskBy: (days) => meanRisk(posterior, days),
    personShare: lifetimes.n === 0 ? 0 : Math.max(0, 1 - varianceLeft),
  };
}

/** Variance, before any wear is seen, of the log of the own day: log scale + log(-log(1 - target)) / shape. */
function priorVariance({ logScale, logShape }: WearPrior, target: number): number {
  const reach = Math.log(-Math.log1p(-target));
  const ofOneOverShape = Math.expm1(logShape.sd ** 2) * Math.exp(logShape.sd ** 2 - 2 * logShape.mean);
  return logScale.sd ** 2 + reach ** 2 * ofOneOverShape;
}

/** By maximum likelihood; null where there is no finite fit. */
function ownDayAlone(lifetimes: Lifetimes, riskTarget: number): OwnDay | null {
  const fit = weibullFit(lifetimes);
  if (typeof fit === "string") return null;
  const limits = (level: number) => weibullQuantile(fit, riskTarget, level);
  return {
    estimate: limits(forecastLevel).days,
    quantile: (p) => (p < 0.5 ? limits(1 - 2 * p).lower : limits(2 * p - 1).upper),
    riskBy: (days) => -Math.expm1(-((days / fit.scale) ** fit.shape)),
    personShare: 1,
  };
}

/** What has been tried: the longest wear, or the plan while the first wears are still on. */
function boundOf(
  wears: readonly Wear[],
  { longestDays }: Lifetimes,
  { plannedDays, maxDays }: ChangeSettings,
): ChangeBound {
  const planStandsIn = plannedDays > longestDays && wears.every(({ ended }) => ended === "stillOn");
  const tried = planStandsIn ? plannedDays : longestDays;
  if (maxDays <= tried) return { days: maxDays, by: "maximum" };
  return { days: tried, by: planStandsIn ? "plannedInterval" : "longestWear" };
}

/**
 * Null below the floor. Where the bound cuts the upper tail off, the whole fifth that an 80 % interval leaves
 * out lies below its lower limit: the interval is that of the own day held to the same bound.
 */
function heldTo(
  boundDays: number,
  own: OwnDay,
  floorDays: number,
): { estimate: number; lower: number; upper: number } | null {
  const estimate = Math.min(own.estimate, boundDays);
  if (estimate < floorDays) return null;
  const upper = own.quantile(1 - tail);
  const isCut = upper > boundDays;
  return {
    estimate,
    lower: Math.min(own.quantile(isCut ? 2 * tail : tail), estimate),
    upper: isCut ? boundDays : Math.max(upper, estimate),
  };
}

function whyNoInterval(
  own: OwnDay | null,
  { failures, longestDays }: Lifetimes,
  settings: ChangeSettings,
): Note {
  if (!own) return tooFewFailures();
  return failures === 0
    ? tooEarlyToSay(settings, longestDays)
    : reviewFit(settings, own.estimate, longestDays);
}
