import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import type { Possible } from "./posterior.ts";
import type { Volume } from "./rate.ts";

/** A volume as one possible person leaves it: log-normal. */
export interface LogNormal {
  weight: number;
  mean: number;
  sd: number;
}

/** A volume that the rate makes, as a possible person leaves it, by the delta method. */
export function logNormalOf({ weight, precision }: Possible, { ml, slope }: Volume): LogNormal {
  return { weight, mean: Math.log(ml), sd: Math.sqrt(varianceOf(slope, precision)) / ml };
}

/** Variance of a sum of the unknowns, each times its slope: the squared length of L⁻¹·slope. */
function varianceOf(slope: readonly number[], precision: readonly (readonly number[])[]): number {
  const whitened = new Float64Array(slope.length);
  let variance = 0;
  for (let i = 0; i < slope.length; i++) {
    const row = precision[i]!;
    let rest = slope[i]!;
    for (let k = 0; k < i; k++) rest -= row[k]! * whitened[k]!;
    whitened[i] = rest / row[i]!;
    variance += whitened[i]! ** 2;
  }
  return variance;
}

export function meanOf(mixture: readonly LogNormal[]): number {
  return mixture.reduce((sum, { weight, mean, sd }) => sum + weight * Math.exp(mean + sd ** 2 / 2), 0);
}

export function chanceBelow(mixture: readonly LogNormal[], value: number): number {
  const log = Math.log(value);
  return mixture.reduce((sum, { weight, mean, sd }) => sum + weight * normalCdf(log, mean, sd), 0);
}

/** The value that the mixture stays below with this chance. */
export function quantileOf(mixture: readonly LogNormal[], chance: number): number {
  const each = mixture.map(({ mean, sd }) => mean + sd * normalQuantile(chance, 0, 1));
  let low = Math.min(...each);
  let high = Math.max(...each);
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (chanceBelow(mixture, Math.exp(middle)) < chance) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}
