import { logIntervalProbability, truncate } from "./normalInterval.ts";
import { isRing, type Measurement } from "./readings.ts";

/**
 * What is believed of the size at surgery and of the shrinking from then on (final = start − shrink), once time
 * constant and wobble are taken as given: a two-dimensional normal. On a day the size is start − shrink·gone,
 * where gone = 1 − exp(−day / timeConstant).
 */
export interface Belief {
  startMm: number;
  shrinkMm: number;
  varStart: number;
  covariance: number;
  varShrink: number;
}

/** A normal-shaped stand-in for one measurement: exp(logScale − precision·size²/2 + shift·size). */
interface Site {
  gone: number;
  precision: number;
  shift: number;
  logScale: number;
}

export interface FittedBelief {
  belief: Belief;
  /** Log of the measurements' probability; near exact, and made exact by {@link logCorrection} over draws. */
  logEvidence: number;
  sites: Site[];
  /** Variance of wobble and measuring error together, for each measurement. */
  errorVariances: number[];
}

const MOST_SWEEPS = 30;
const SETTLED_MM = 1e-6;

/**
 * The belief after all measurements. Direct sizes enter exactly; rings, whose likelihood is an interval and not
 * a normal, enter by expectation propagation: each is replaced by the normal that leaves the same mean and variance.
 * @source Minka, Expectation propagation for approximate Bayesian inference, 2001
 */
export function fitBelief(
  measurements: readonly Measurement[],
  timeConstantDays: number,
  wobbleMm: number,
  prior: Belief,
): FittedBelief {
  const errorVariances = measurements.map(({ sdMm }) => sdMm * sdMm + wobbleMm * wobbleMm);
  const sites = measurements.map((measurement, i) =>
    firstSite(measurement, -Math.expm1(-measurement.day / timeConstantDays), errorVariances[i]!),
  );
  const belief = sites.reduce(learn, prior);
  const rings = measurements.flatMap((measurement, i) => (isRing(measurement) ? [i] : []));
  for (let sweep = 0; sweep < MOST_SWEEPS; sweep++) {
    let moved = 0;
    for (const i of rings)
      moved = Math.max(moved, refine(belief, sites[i]!, measurements[i]!, errorVariances[i]!));
    if (moved < SETTLED_MM) break;
  }
  return { ...withEvidence(prior, sites), sites, errorVariances };
}

/** How much likelier the measurements make one drawn curve than their normal stand-ins say, as a logarithm. */
export function logCorrection(
  { sites, errorVariances }: FittedBelief,
  measurements: readonly Measurement[],
  startMm: number,
  shrinkMm: number,
): number {
  let sum = 0;
  for (let i = 0; i < sites.length; i++) {
    const { aboveMm, upToMm } = measurements[i]!;
    if (aboveMm === upToMm) continue;
    const { gone, precision, shift, logScale } = sites[i]!;
    const size = startMm - shrinkMm * gone;
    const error = Math.sqrt(errorVariances[i]!);
    const exact = logIntervalProbability((aboveMm - size) / error, (upToMm - size) / error);
    sum += exact - (logScale - 0.5 * precision * size * size + shift * size);
  }
  return sum;
}

/** A direct size is exact from the start; a ring begins as the normal with its interval's mean and variance. */
function firstSite(measurement: Measurement, gone: number, errorVariance: number): Site {
  const { aboveMm, upToMm } = measurement;
  const middle = (aboveMm + upToMm) / 2;
  const precision = 1 / (errorVariance + (upToMm - aboveMm) ** 2 / 12);
  const logScale = 0.5 * (Math.log(precision / (2 * Math.PI)) - precision * middle * middle);
  return { gone, precision, shift: precision * middle, logScale };
}

/** Believed mean and variance of the size where `gone` of the shrinking is over. */
function sizeAt(belief: Belief, gone: number): { mean: number; variance: number } {
  return {
    mean: belief.startMm - belief.shrinkMm * gone,
    variance: belief.varStart - 2 * gone * belief.covariance + gone * gone * belief.varShrink,
  };
}

/** The belief after one more site. */
function learn(belief: Belief, { gone, precision, shift }: Site): Belief {
  const learnt = { ...belief };
  update(learnt, gone, precision, shift);
  return learnt;
}

/** Adds precision and shift at one place of the curve: a rank-one update, safe where the variance is nil. */
function update(belief: Belief, gone: number, precision: number, shift: number): void {
  const { mean, variance } = sizeAt(belief, gone);
  const withStart = belief.varStart - gone * belief.covariance;
  const withShrink = belief.covariance - gone * belief.varShrink;
  const step = (shift - precision * mean) / (1 + precision * variance);
  const narrowing = precision / (1 + precision * variance);
  belief.startMm += withStart * step;
  belief.shrinkMm += withShrink * step;
  belief.varStart -= withStart * withStart * narrowing;
  belief.covariance -= withStart * withShrink * narrowing;
  belief.varShrink -= withShrink * withShrink * narrowing;
}

/** One step of expectation propagation for one ring, in place. Returns how far the believed size moved, in mm. */
function refine(belief: Belief, site: Site, { aboveMm, upToMm }: Measurement, errorVariance: number): number {
  const { mean, variance } = sizeAt(belief, site.gone);
  const left = 1 - site.precision * variance;
  if (variance <= 0 || left <= 0) return 0;
  const without = { mean: (mean - variance * site.shift) / left, variance: variance / left };
  const after = truncate(without.mean, without.variance, errorVariance, aboveMm, upToMm);
  const precision = 1 / after.variance - 1 / without.variance;
  const shift = after.mean / after.variance - without.mean / without.variance;
  update(belief, site.gone, precision - site.precision, shift - site.shift);
  site.precision = precision;
  site.shift = shift;
  site.logScale = after.logProbability - logMass(without.mean, without.variance, precision, shift);
  return Math.abs(after.mean - mean) + Math.abs(Math.sqrt(after.variance) - Math.sqrt(variance));
}

/** Folds the sites in afresh, which sheds rounding, and adds up the evidence on the way. */
function withEvidence(prior: Belief, sites: readonly Site[]): { belief: Belief; logEvidence: number } {
  const belief = { ...prior };
  let logEvidence = 0;
  for (const { gone, precision, shift, logScale } of sites) {
    const { mean, variance } = sizeAt(belief, gone);
    logEvidence += logScale + logMass(mean, variance, precision, shift);
    update(belief, gone, precision, shift);
  }
  return { belief, logEvidence };
}

/** log ∫ normal(x; mean, variance) · exp(−precision·x²/2 + shift·x) dx */
function logMass(mean: number, variance: number, precision: number, shift: number): number {
  const spread = 1 + precision * variance;
  return (
    -0.5 * Math.log(spread) +
    (0.5 * (variance * shift * shift + 2 * mean * shift - precision * mean * mean)) / spread
  );
}
