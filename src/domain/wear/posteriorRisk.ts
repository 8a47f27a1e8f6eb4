import type { PosteriorColumn } from "./posterior.ts";
import { risingRoot } from "./risingRoot.ts";

type Posterior = readonly PosteriorColumn[];

/** Chance that a new barrier's seal fails within `days`, averaged over the posterior. */
export function meanRisk(posterior: Posterior, days: number): number {
  return riskAtLogDay(posterior, Math.log(days)).value;
}

/** The day at which the posterior mean chance of a failure reaches `target`. */
export function dayOfMeanRisk(posterior: Posterior, target: number): number {
  const { low, high } = rangeOfOwnLogDay(posterior, target);
  const logDay = risingRoot(
    (x) => {
      const { value, slope } = riskAtLogDay(posterior, x);
      return { value: value - target, slope };
    },
    low,
    high,
  );
  return Math.exp(logDay);
}

function riskAtLogDay(posterior: Posterior, logDay: number): { value: number; slope: number } {
  let value = 0;
  let slope = 0;
  for (const { shape, firstLogScale, step, weights } of posterior)
    for (let i = 0; i < weights.length; i++) {
      const hazard = Math.exp(shape * (logDay - firstLogScale - i * step));
      const survival = Math.exp(-hazard);
      value += weights[i]! * (1 - survival);
      slope += weights[i]! * shape * hazard * survival;
    }
  return { value, slope };
}

/**
 * Quantile of the person's own day: the day at which the risk of the law they really have reaches `target`.
 * @param p chance that their own day is no later
 */
export function quantileOfOwnDay(posterior: Posterior, target: number, p: number): number {
  const { low, high } = rangeOfOwnLogDay(posterior, target);
  return Math.exp(
    risingRoot(
      (x) => {
        const { value, slope } = chanceOwnDayBefore(posterior, target, x);
        return { value: value - p, slope };
      },
      low,
      high,
    ),
  );
}

/** Each grid point stands for the step round it, so the chance rises in straight pieces. */
function chanceOwnDayBefore(
  posterior: Posterior,
  target: number,
  logDay: number,
): { value: number; slope: number } {
  let value = 0;
  let slope = 0;
  for (const { shape, firstLogScale, step, weights } of posterior) {
    const steps = (logDay - logOwnDay(shape, firstLogScale, target)) / step + 0.5;
    for (let i = 0; i < weights.length; i++) {
      const share = steps - i;
      if (share <= 0) break;
      value += weights[i]! * Math.min(1, share);
      if (share < 1) slope += weights[i]! / step;
    }
  }
  return { value, slope };
}

/** Variance of the logarithm of the person's own day. */
export function varianceOfLogOwnDay(posterior: Posterior, target: number): number {
  let mean = 0;
  let square = 0;
  for (const { shape, firstLogScale, step, weights } of posterior)
    weights.forEach((weight, i) => {
      const day = logOwnDay(shape, firstLogScale + i * step, target);
      mean += weight * day;
      square += weight * day ** 2;
    });
  return square - mean ** 2;
}

/** Under a Weibull law the risk reaches the target where (t / scale)^shape = -log(1 - target). */
function logOwnDay(shape: number, logScale: number, target: number): number {
  return logScale + Math.log(-Math.log1p(-target)) / shape;
}

function rangeOfOwnLogDay(posterior: Posterior, target: number): { low: number; high: number } {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const { shape, firstLogScale, step, weights } of posterior) {
    const first = logOwnDay(shape, firstLogScale, target);
    low = Math.min(low, first - step);
    high = Math.max(high, first + weights.length * step);
  }
  return { low, high };
}
