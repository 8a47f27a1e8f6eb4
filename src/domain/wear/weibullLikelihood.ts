import type { Lifetimes } from "./lifetimes.ts";

/** Wears as the Weibull likelihood reads them: logarithms of days above zero, alike wears counted together. */
export interface WeibullLives {
  logDays: Float64Array;
  /** How many lasted to each of them, failed then or censored. */
  total: Float64Array;
  /** Failures seen when they happened: how many, the sum of their log days, and the earliest log day. */
  seen: { count: number; sumLogDays: number; earliest: number };
  /** Failures between two looks; a `logAfter` of minus infinity means since the start. */
  logAfter: Float64Array;
  logBy: Float64Array;
  /** Failures of both kinds. */
  failures: number;
}

/**
 * Prepares wears for the likelihood. A wear censored at 0 days says nothing and is left out. A failure at
 * 0 days has no density under a Weibull law (its logarithm is infinite): it is read as a failure before the
 * shortest wear above zero, which is what it is known to be.
 */
export function weibullLives({ table, between }: Lifetimes): WeibullLives {
  const skipped = table.days[0] === 0 ? 1 : 0;
  const failedAtOnce = skipped === 1 ? table.events[0]! : 0;
  const shortest = Math.min(table.days[skipped] ?? Number.POSITIVE_INFINITY, minOf(between.byDays));
  const atOnce = new Float64Array(shortest < Number.POSITIVE_INFINITY ? failedAtOnce : 0);
  const logDays = table.days.subarray(skipped).map(Math.log);
  const events = table.events.subarray(skipped);
  const censored = table.censored.subarray(skipped);
  const seen = seenFailures(logDays, events);
  const logBy = Float64Array.from([...atOnce.fill(Math.log(shortest)), ...between.byDays.map(Math.log)]);
  return {
    logDays,
    total: events.map((count, i) => count + censored[i]!),
    seen,
    logAfter: Float64Array.from([
      ...atOnce.fill(Number.NEGATIVE_INFINITY),
      ...between.afterDays.map(Math.log),
    ]),
    logBy,
    failures: seen.count + logBy.length,
  };
}

function seenFailures(logDays: Float64Array, events: Float64Array): WeibullLives["seen"] {
  let count = 0;
  let sumLogDays = 0;
  let earliest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < logDays.length; i++) {
    if (events[i] === 0) continue;
    if (count === 0) earliest = logDays[i]!;
    count += events[i]!;
    sumLogDays += events[i]! * logDays[i]!;
  }
  return { count, sumLogDays, earliest };
}

/** Log-likelihood with its first and second derivatives by eta and shape. */
export interface Curvature {
  logLikelihood: number;
  byEta: number;
  byShape: number;
  byEtaEta: number;
  byEtaShape: number;
  byShapeShape: number;
}

/**
 * The Weibull log-likelihood with S(t) = exp(-e^z), z = shape (log t - centre) - eta. In (eta, shape) it is
 * concave for failures, censored wears and failures between two looks alike, so Newton's method finds the
 * one maximum from anywhere. Failures seen when they happened count with their density in days.
 * @param centre any fixed log time near the data; keeps the two parameters from pulling on each other
 * @source Burridge 1981 (concavity); Kalbfleisch and Prentice 2002, section 3.7
 */
export function weibullCurvature(lives: WeibullLives, eta: number, shape: number, centre: number): Curvature {
  const { logDays, total, seen } = lives;
  let hazard = 0;
  let byLog = 0;
  let byLogSquared = 0;
  for (let i = 0; i < logDays.length; i++) {
    const l = logDays[i]! - centre;
    const e = total[i]! * Math.exp(shape * l - eta);
    hazard += e;
    byLog += e * l;
    byLogSquared += e * l * l;
  }
  const logSeen = seen.sumLogDays - seen.count * centre;
  const curvature = {
    logLikelihood: seen.count * (Math.log(shape) - eta) + shape * logSeen - seen.sumLogDays - hazard,
    byEta: hazard - seen.count,
    byShape: seen.count / shape + logSeen - byLog,
    byEtaEta: -hazard,
    byEtaShape: byLog,
    byShapeShape: -seen.count / shape ** 2 - byLogSquared,
  };
  for (let i = 0; i < lives.logBy.length; i++)
    addBetween(curvature, lives.logAfter[i]! - centre, lives.logBy[i]! - centre, eta, shape);
  return curvature;
}

/** A hazard this much higher at the second look: failure by then is certain to double precision. */
const certain = 700;

/**
 * Adds log(S(after) - S(by)) = log(1 - e^-rise) - a, with a = e^z at the first look and `rise` the hazard
 * gathered until the second. Differentiated by z at the first look and by the step to the second, which
 * stays exact however close the looks are.
 */
function addBetween(sum: Curvature, logAfter: number, logBy: number, eta: number, shape: number): void {
  if (logAfter === Number.NEGATIVE_INFINITY) addSinceStart(sum, logBy, eta, shape);
  else {
    const step = logBy - logAfter;
    const a = Math.exp(shape * logAfter - eta);
    const b = Math.exp(shape * logBy - eta);
    const rise = shape * step < 1 ? a * Math.expm1(shape * step) : b - a;
    const odds = rise < certain ? 1 / Math.expm1(rise) : 0;
    const byZ = odds > 0 ? odds * rise - a : -a;
    const byStep = odds > 0 ? odds * b : 0;
    const bend = 1 - (1 + odds) * rise;
    const byZZ = odds > 0 ? odds * rise * bend - a : -a;
    const byZStep = odds > 0 ? odds * b * bend : 0;
    const byStepStep = odds > 0 ? odds * b * (1 - (1 + odds) * b) : 0;
    sum.logLikelihood += Math.log(-Math.expm1(-rise)) - a;
    sum.byEta -= byZ;
    sum.byShape += logAfter * byZ + step * byStep;
    sum.byEtaEta += byZZ;
    sum.byEtaShape -= logAfter * byZZ + step * byZStep;
    sum.byShapeShape += logAfter ** 2 * byZZ + 2 * logAfter * step * byZStep + step ** 2 * byStepStep;
  }
}

/** Adds log(1 - S(by)). */
function addSinceStart(sum: Curvature, logBy: number, eta: number, shape: number): void {
  const b = Math.exp(shape * logBy - eta);
  const odds = b < certain ? 1 / Math.expm1(b) : 0;
  const byZ = odds > 0 ? odds * b : 0;
  const byZZ = odds > 0 ? byZ * (1 - (1 + odds) * b) : 0;
  sum.logLikelihood += Math.log(-Math.expm1(-b));
  sum.byEta -= byZ;
  sum.byShape += logBy * byZ;
  sum.byEtaEta += byZZ;
  sum.byEtaShape -= logBy * byZZ;
  sum.byShapeShape += logBy ** 2 * byZZ;
}

/**
 * Whether the wears leave room for a finite fit: some wear must outlast some failure. Where all could have
 * failed on one and the same day, the likelihood grows with the shape without end.
 */
export function hasSpread({ logDays, seen, logAfter, logBy }: WeibullLives): boolean {
  const earliestFailure = Math.min(seen.earliest, minOf(logBy));
  const longestHold = Math.max(logDays.at(-1) ?? Number.NEGATIVE_INFINITY, maxOf(logAfter));
  return longestHold > earliestFailure;
}

function minOf(values: Float64Array): number {
  return values.reduce((least, value) => Math.min(least, value), Number.POSITIVE_INFINITY);
}

function maxOf(values: Float64Array): number {
  return values.reduce((most, value) => Math.max(most, value), Number.NEGATIVE_INFINITY);
}
