export { type ChangeInterval, changeInterval } from "./changeInterval.ts";
export type { ChangeIntervalInput } from "./changeSettings.ts";
export {
  type ComparedAft,
  type CompareOptions,
  compareGroups,
  type GroupComparison,
  type RestrictedMeanDifference,
} from "./compareGroups.ts";
export { forecastLevel, type Limited, wearLevel } from "./confidence.ts";
export {
  type CurveInterval,
  type CurveRow,
  curveRows,
  type HazardRow,
  hazardRows,
  type SurvivalCurve,
  survivalCurve,
} from "./curve.ts";
export { type Lifetimes, lifetimesOf } from "./lifetimes.ts";
export { type LogRank, logRank } from "./logRank.ts";
export { type PosteriorColumn, type WearPrior, wearPosterior } from "./posterior.ts";
export { curveQuantile } from "./quantile.ts";
export { type RestrictedMean, restrictedMean } from "./restrictedMean.ts";
export { type CurveQuantile, summariseWears, type WearSummary } from "./summary.ts";
export {
  type Ending,
  type EventEnding,
  endings,
  eventEndings,
  type SealFailure,
  sealFailures,
  type Wear,
} from "./wear.ts";
export { type GroupEffect, type NoWeibullAft, type WeibullAft, weibullAft } from "./weibullAft.ts";
export {
  type NoWeibullFit,
  type WeibullFit,
  type WeibullQuantile,
  weibullFit,
  weibullQuantile,
} from "./weibullFit.ts";
export { weibullLives } from "./weibullLikelihood.ts";
