import { halfWidth, wearLevel } from "./confidence.ts";
import type { Lifetimes } from "./lifetimes.ts";
import { hasSpread, weibullLives } from "./weibullLikelihood.ts";
import { fitWeibullRegression } from "./weibullRegression.ts";

/** The day by which a share p of wears has failed under the fitted law, with 95 % limits. */
export interface WeibullQuantile {
  p: number;
  days: number;
  lower: number;
  upper: number;
}

/** S(t) = exp(-(t / scale)^shape), t and scale in days. */
export interface WeibullFit {
  /** Above 1: the chance of failing rises the longer the barrier is on. */
  shape: number;
  /** Days by which 63 % have failed. */
  scale: number;
  logLikelihood: number;
  covLogShapeLogScale: [[number, number], [number, number]];
  quantiles: WeibullQuantile[];
}

/** Why there is no finite Weibull fit. */
export type NoWeibullFit = "noFailure" | "noSpread" | "noMaximum";

const shownQuantiles = [0.05, 0.1, 0.25, 0.5, 0.9];

/**
 * Weibull law by maximum likelihood from failures, censored wears and failures between two looks.
 * `noFailure`: nothing failed; `noSpread`: no wear outlasts a failure, so the likelihood has no finite
 * maximum; `noMaximum`: the search found none, or one whose limits no number can hold.
 */
export function weibullFit(lifetimes: Lifetimes): WeibullFit | NoWeibullFit {
  const lives = weibullLives(lifetimes);
  if (lives.failures === 0) return "noFailure";
  if (!hasSpread(lives)) return "noSpread";
  const fit = fitWeibullRegression([{ lives, x: [1] }]);
  if (!fit) return "noMaximum";
  const [[varLogScale, covScaleSigma], [, varLogSigma]] = fit.covariance as [
    [number, number],
    [number, number],
  ];
  const law: Omit<WeibullFit, "quantiles"> = {
    shape: 1 / fit.sigma,
    scale: Math.exp(fit.coefficients[0]!),
    logLikelihood: fit.logLikelihood,
    // log shape is minus log sigma.
    covLogShapeLogScale: [
      [varLogSigma, -covScaleSigma],
      [-covScaleSigma, varLogScale],
    ],
  };
  const quantiles = shownQuantiles.map((p) => weibullQuantile(law, p));
  const isDetermined = quantiles.every(({ lower, upper }) => lower > 0 && upper < Number.POSITIVE_INFINITY);
  return isDetermined ? { ...law, quantiles } : "noMaximum";
}

/**
 * Day by which a share `p` has failed under a fit, with limits by the delta method on the log scale.
 * @param level of the limits, 95 % unless said
 */
export function weibullQuantile(
  { shape, scale, covLogShapeLogScale }: Omit<WeibullFit, "quantiles">,
  p: number,
  level = wearLevel,
): WeibullQuantile {
  const spread = Math.log(-Math.log1p(-p)) / shape;
  const [[varShape, cov], [, varScale]] = covLogShapeLogScale;
  // log t = log scale + spread, and d spread / d log shape = -spread.
  const se = Math.sqrt(varScale - 2 * spread * cov + spread ** 2 * varShape);
  const days = scale * Math.exp(spread);
  const factor = Math.exp(halfWidth(level) * se);
  return { p, days, lower: days / factor, upper: days * factor };
}
