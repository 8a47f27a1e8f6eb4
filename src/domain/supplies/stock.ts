import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";

/** Demand of a day, independent from day to day. */
export interface DailyDemand {
  meanPerDay: number;
  sdPerDay: number;
}

/**
 * The stock at which to order so that demand over the lead time is met with the service level, for demand that is the
 * sum of many people's: normal, lead time uncertain too.
 *
 * @returns pieces, not rounded
 * @source textbook reorder point: μL + z √(L σ² + μ² σ_L²)
 */
export function reorderPoint(
  { meanPerDay, sdPerDay }: DailyDemand,
  { leadDays, sdLeadDays = 0 }: { leadDays: number; sdLeadDays?: number },
  serviceLevel: number,
): number {
  const sd = Math.sqrt(leadDays * sdPerDay ** 2 + meanPerDay ** 2 * sdLeadDays ** 2);
  return meanPerDay * leadDays + normalQuantile(serviceLevel, 0, 1) * sd;
}

/**
 * The same for a few slow movers, whose demand is Poisson: the smallest whole stock that suffices.
 */
export function reorderPointPoisson(meanPerDay: number, leadDays: number, serviceLevel: number): number {
  return poissonQuantile(meanPerDay * leadDays, serviceLevel);
}

/** The smallest whole number that a Poisson count does not pass with a probability. */
export function poissonQuantile(mean: number, p: number): number {
  let chance = Math.exp(-mean);
  let below = chance;
  let n = 0;
  while (below < p && n < 1e6) {
    n += 1;
    chance *= mean / n;
    below += chance;
  }
  return n;
}

/**
 * How many to have for one period when each too few costs `underage` and each too many `overage`: the smallest number
 * that demand does not pass with the critical ratio.
 *
 * @source newsvendor rule, Arrow, Harris and Marschak 1951
 */
export function newsvendor(
  { underage, overage }: { underage: number; overage: number },
  demand: { kind: "normal"; mean: number; sd: number } | { kind: "poisson"; mean: number },
): number {
  const ratio = underage / (underage + overage);
  return demand.kind === "normal"
    ? normalQuantile(ratio, demand.mean, demand.sd)
    : poissonQuantile(demand.mean, ratio);
}
