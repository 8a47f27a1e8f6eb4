import type { WearLaw } from "./wearLaw.ts";

/** Mean and variance of one wear as it is worn: until it fails or the planned change. */
export interface Moments {
  meanDays: number;
  varianceDays2: number;
}

/** Steps of Simpson's rule over the logarithm of the day: a law below shape 1 is steep near its start. */
const steps = 1200;
const [belowEnd, longest] = [30, 8];

/** @source E(min(X, c)) = ∫ S, E(min(X, c)²) = 2 ∫ t S, from 0 to c */
export function momentsOf({ shape, scaleDays, plannedDays }: WearLaw): Moments {
  const end = plannedDays === null ? longest / shape : Math.log(plannedDays / scaleDays);
  const start = Math.min(end, 0) - belowEnd;
  const width = (end - start) / steps;
  let first = 0;
  let second = 0;
  for (let i = 0; i <= steps; i++) {
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    const days = Math.exp(start + i * width);
    const survival = Math.exp(-(days ** shape));
    first += weight * survival * days;
    second += weight * 2 * survival * days ** 2;
  }
  const meanDays = (scaleDays * width * first) / 3;
  return { meanDays, varianceDays2: (scaleDays ** 2 * width * second) / 3 - meanDays ** 2 };
}
