import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import { halfWidth, wearLevel } from "./confidence.ts";
import type { Lifetimes } from "./lifetimes.ts";
import { hasSpread, type WeibullLives, weibullLives } from "./weibullLikelihood.ts";
import { fitWeibullRegression } from "./weibullRegression.ts";

/** How a group's wear compares with the first group's. */
export interface GroupEffect {
  /** Difference of log days; above 0 the seal holds longer. */
  beta: number;
  se: number;
  /** Times as long as the first group's wear, with 95 % limits. */
  timeRatio: number;
  lower: number;
  upper: number;
  /** Two-sided Wald test of no difference. */
  p: number;
}

/**
 * log T = intercept + beta (of the group) + sigma W: one shape for all groups, each stretching time by its
 * own factor. The first group has beta 0.
 */
export interface WeibullAft {
  intercept: number;
  sigma: number;
  logLikelihood: number;
  /** One for each group after the first. */
  effects: GroupEffect[];
  /** Of intercept, betas and log sigma. */
  covariance: number[][];
}

/** Why there is no finite fit: a group without a failure, or no wear that outlasts a failure of its group. */
export type NoWeibullAft = "groupWithoutFailure" | "noSpread" | "noMaximum";

/** Accelerated-failure-time Weibull fit with the group as covariate. @source as R's survreg */
export function weibullAft(groups: readonly Lifetimes[]): WeibullAft | NoWeibullAft {
  const lives = groups.map(weibullLives);
  if (!lives.every(hasFiniteScale)) return "groupWithoutFailure";
  if (!lives.some(hasSpread)) return "noSpread";
  const fit = fitWeibullRegression(
    lives.map((life, g) => ({ lives: life, x: groups.map((_, j) => (j === 0 || j === g ? 1 : 0)) })),
  );
  if (!fit) return "noMaximum";
  const [intercept, ...betas] = fit.coefficients;
  const effects = betas.map((beta, j) => groupEffect(beta, Math.sqrt(fit.covariance[j + 1]![j + 1]!)));
  if (!effects.every(({ lower, upper }) => lower > 0 && upper < Number.POSITIVE_INFINITY)) return "noMaximum";
  return {
    intercept: intercept!,
    sigma: fit.sigma,
    logLikelihood: fit.logLikelihood,
    effects,
    covariance: fit.covariance,
  };
}

/** A group needs a failure, and something that held for a while: else its scale runs to an end. */
function hasFiniteScale(lives: WeibullLives): boolean {
  return lives.failures > 0 && (lives.logDays.length > 0 || lives.logAfter.some(Number.isFinite));
}

function groupEffect(beta: number, se: number): GroupEffect {
  const factor = Math.exp(halfWidth(wearLevel) * se);
  const timeRatio = Math.exp(beta);
  return {
    beta,
    se,
    timeRatio,
    lower: timeRatio / factor,
    upper: timeRatio * factor,
    p: 2 * normalCdf(-Math.abs(beta / se), 0, 1),
  };
}
