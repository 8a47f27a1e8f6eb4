import normalCdf from "@stdlib/stats-base-dists-normal-cdf";

const LOG_SQRT_2PI = 0.5 * Math.log(2 * Math.PI);

/** Further out than this the cumulative distribution nears the smallest double; its expansion is exact to 1e-9. */
const FAR_OUT = 25;

/** Narrower than this, an interval is its midpoint's density times its width. */
const NARROW = 1e-5;

/**
 * log(Φ(upper) − Φ(lower)) for lower < upper, in standard deviations; finite however far out the interval lies.
 * @source Abramowitz & Stegun 26.2.12 for the tail
 */
export function logIntervalProbability(lower: number, upper: number): number {
  if (upper - lower < NARROW) return logDensity((lower + upper) / 2) + Math.log(upper - lower);
  if (lower > 0) return logUpperTail(lower) + logOneMinusExp(logUpperTail(upper) - logUpperTail(lower));
  if (upper < 0) return logIntervalProbability(-upper, -lower);
  return Math.log1p(-normalCdf(lower, 0, 1) - normalCdf(-upper, 0, 1));
}

/** Mean and variance of a normal size, given that size + error fell in the interval; with log probability of that. */
export interface Truncated {
  mean: number;
  variance: number;
  logProbability: number;
}

/**
 * What a ring of the guide leaves of a size believed normal(mean, variance): the moments after learning that
 * the size plus a normal(0, errorVariance) error lies in (above, upTo].
 * @source moments of the truncated normal, Johnson, Kotz & Balakrishnan, Continuous Univariate Distributions 1, 13.10
 */
export function truncate(
  mean: number,
  variance: number,
  errorVariance: number,
  above: number,
  upTo: number,
): Truncated {
  const spread = Math.sqrt(variance + errorVariance);
  const lower = (above - mean) / spread;
  const upper = (upTo - mean) / spread;
  const logProbability = logIntervalProbability(lower, upper);
  const lowerDensity = Math.exp(logDensity(lower) - logProbability);
  const upperDensity = Math.exp(logDensity(upper) - logProbability);
  const slope = (lowerDensity - upperDensity) / spread;
  const curvature = (lower * lowerDensity - upper * upperDensity) / (spread * spread) - slope * slope;
  return {
    mean: mean + variance * slope,
    variance: variance + variance * variance * curvature,
    logProbability,
  };
}

function logDensity(x: number): number {
  return -0.5 * x * x - LOG_SQRT_2PI;
}

/** log(1 − Φ(x)) for x ≥ 0. */
function logUpperTail(x: number): number {
  if (x < FAR_OUT) return Math.log(normalCdf(-x, 0, 1));
  const inverse = 1 / (x * x);
  return logDensity(x) - Math.log(x) + Math.log1p(-inverse * (1 - 3 * inverse * (1 - 5 * inverse)));
}

/** log(1 − exp(x)) for x < 0. */
function logOneMinusExp(x: number): number {
  return Math.log(-Math.expm1(x));
}
