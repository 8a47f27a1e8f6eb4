import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";

/** Level of every interval round a curve, a fit or a comparison. */
export const wearLevel = 0.95;

/** Level of the interval round a change interval, as of every forecast. */
export const forecastLevel = 0.8;

/** Half-width, in standard errors, of a two-sided interval at `level`. */
export function halfWidth(level: number): number {
  return normalQuantile((1 + level) / 2, 0, 1);
}

/** An estimate with its limits; null where the data do not reach that far. */
export interface Limited {
  estimate: number | null;
  lower: number | null;
  upper: number | null;
}

/** For output: what cannot be known is null, never NaN or infinite. */
export function finiteOrNull(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}
