import type { Protocol } from "../protocol/index.ts";
import { type Around, beliefAbout, type OutputBelief } from "./belief.ts";
import { type Fit, fitRate, type TimedFill } from "./fit.ts";
import type { Days } from "./rate.ts";

/** One possible person: how they gush and how their days spread, with the rate that follows, and how likely. */
export interface Possible extends Fit {
  weight: number;
  gushMl: number;
  dayLogSd: number;
}

/** Where a gush and a spread of days are tried, in standard deviations: the points of Gauss and Hermite's rule of three. */
const steps = [-Math.sqrt(3), 0, Math.sqrt(3)];
/** A grid much wider than the deviation it finds is drawn again, closer; so many grids at the most. */
const mostGrids = 3;
/** Possible people less likely than this, against the likeliest, are left out. */
const negligible = 2e-3;

/** A logarithm believed normal. */
interface Axis {
  mean: number;
  sd: number;
}

/**
 * What the log leaves possible: a normal for each of a grid of gushes and spreads of days, weighted by how well each
 * explains the log. No random numbers.
 *
 * @source Rue, Martino & Chopin, J R Stat Soc B 2009;71:319 (nested Laplace approximations)
 */
export function posteriorOf(
  fills: readonly TimedFill[],
  days: Days,
  before: OutputBelief,
  protocol: Protocol,
): Possible[] {
  let gush = axisOf(before.gushMl);
  let spread = axisOf(before.dayLogSd);
  let start = beliefAbout(before, days, before.dayLogSd.middle, protocol).means;
  for (let grid = 1; ; grid++) {
    const points = steps.flatMap((i) =>
      steps.map((j) => {
        const [logGush, logSpread] = [gush.mean + i * gush.sd, spread.mean + j * spread.sd];
        const dayLogSd = Math.exp(logSpread);
        const belief = beliefAbout(before, days, dayLogSd, protocol);
        const fit = fitRate(fills, days, Math.exp(logGush), belief, start);
        start = fit.unknowns;
        const log =
          fit.logEvidence + logDensity(logGush, before.gushMl) + logDensity(logSpread, before.dayLogSd);
        return { ...fit, gushMl: Math.exp(logGush), dayLogSd, logGush, logSpread, log };
      }),
    );
    const weights = normalised(points.map(({ log }) => log));
    const closerGush = closer(
      gush,
      points.map(({ logGush }) => logGush),
      weights,
    );
    const closerSpread = closer(
      spread,
      points.map(({ logSpread }) => logSpread),
      weights,
    );
    if (grid === mostGrids || (closerGush === null && closerSpread === null)) return likely(points, weights);
    gush = closerGush ?? gush;
    spread = closerSpread ?? spread;
  }
}

function likely(
  points: readonly (Fit & { gushMl: number; dayLogSd: number })[],
  weights: number[],
): Possible[] {
  const most = Math.max(...weights);
  const kept = points.flatMap(({ unknowns, precision, logEvidence, gushMl, dayLogSd }, i) =>
    weights[i]! < negligible * most
      ? []
      : [{ unknowns, precision, logEvidence, gushMl, dayLogSd, weight: weights[i]! }],
  );
  const total = kept.reduce((sum, { weight }) => sum + weight, 0);
  return kept.map((one) => ({ ...one, weight: one.weight / total }));
}

function axisOf({ middle, factor }: Around): Axis {
  return { mean: Math.log(middle), sd: Math.log(factor) };
}

/** Null where the axis is close enough to what it found. */
function closer({ sd }: Axis, at: readonly number[], weights: readonly number[]): Axis | null {
  const mean = at.reduce((sum, value, i) => sum + weights[i]! * value, 0);
  const variance = at.reduce((sum, value, i) => sum + weights[i]! * (value - mean) ** 2, 0);
  const found = Math.max(Math.sqrt(variance), sd / 3);
  return found < 0.7 * sd ? { mean, sd: found } : null;
}

function logDensity(log: number, { middle, factor }: Around): number {
  return -(((log - Math.log(middle)) / Math.log(factor)) ** 2) / 2;
}

function normalised(logs: readonly number[]): number[] {
  const most = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - most));
  const total = weights.reduce((a, b) => a + b);
  return weights.map((weight) => weight / total);
}
