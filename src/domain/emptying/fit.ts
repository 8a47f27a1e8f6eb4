import { cholesky, solve } from "../healing/symmetric.ts";
import type { Stretch } from "./clock.ts";
import type { Fill } from "./fills.ts";
import { type Days, type DayTable, dayTable, judgingAt, type Volume, volumeOf } from "./rate.ts";

/** A fill with its time on the person's clock. */
export interface TimedFill extends Fill {
  stretches: Stretch[];
}

/** Independent normal beliefs about the unknowns before the log. */
export interface Belief {
  means: readonly number[];
  sds: readonly number[];
}

/** The unknowns as normal round their most likely values, for one gush and one spread of days. */
export interface Fit {
  unknowns: number[];
  /** Lower triangle of the inverse of their covariance. */
  precision: number[][];
  /** Log of the chance of the log under this gush and spread, up to a constant. */
  logEvidence: number;
}

const mostSteps = 100;
/** All unknowns are logarithms: to a hundredth of a per cent. */
const settledWithin = 1e-4;
/** The longest step of any unknown, a factor of 2.7; and the longest that is safe without a look at the misfit. */
const longestStep = 1;
const shortStep = 0.2;
const mostHalvings = 20;

/**
 * Penalised quasi-likelihood: volumes have the mean that the rate makes of their time, and a variance of
 * gush × mean plus the error of measuring. Zero volumes are volumes like others.
 *
 * @source Wedderburn, Biometrika 1974;61:439 (quasi-likelihood); Breslow & Clayton, J Am Stat Assoc 1993;88:9
 */
export function fitRate(
  fills: readonly TimedFill[],
  days: Days,
  gushMl: number,
  belief: Belief,
  start: readonly number[],
): Fit {
  let unknowns = [...start];
  let normal = normalEquations(fills, days, gushMl, belief, unknowns);
  for (let step = 0; step < mostSteps; step++) {
    const move = solve(positive(normal.matrix), normal.score);
    const length = Math.max(...move.map(Math.abs));
    let share = Math.min(1, longestStep / length);
    const moved = () => unknowns.map((value, k) => value + share * move[k]!);
    // Along the move, with variances held, the misfit falls; halve where it does not.
    const tooFar = () => misfit(fills, days, belief, moved(), normal.variances) > normal.misfit;
    for (let halving = 0; halving < mostHalvings; halving++) {
      if (share * length <= shortStep || !tooFar()) break;
      share /= 2;
    }
    unknowns = moved();
    normal = normalEquations(fills, days, gushMl, belief, unknowns);
    if (share * length < settledWithin) break;
  }
  const precision = positive(normal.matrix);
  return { unknowns, precision, logEvidence: logEvidence(normal, belief, precision) };
}

interface NormalEquations {
  matrix: number[][];
  score: number[];
  variances: number[];
  misfit: number;
}

function normalEquations(
  fills: readonly TimedFill[],
  days: Days,
  gushMl: number,
  { means, sds }: Belief,
  unknowns: readonly number[],
): NormalEquations {
  const matrix = sds.map((sd, i) => sds.map((_, j) => (i === j ? 1 / sd ** 2 : 0)));
  const score = sds.map((sd, i) => (means[i]! - unknowns[i]!) / sd ** 2);
  let misfit = priorMisfit({ means, sds }, unknowns);
  const table = dayTable(unknowns);
  const variances = fills.map((fill) => {
    const { ml, slope } = expected(fill, table, unknowns, days);
    const variance = gushMl * ml + (fill.errorShare * ml) ** 2 + fill.errorMl ** 2;
    const rest = fill.volumeMl - ml;
    misfit += rest ** 2 / variance;
    for (let i = 0; i < slope.length; i++) {
      if (slope[i] === 0) continue;
      const pull = slope[i]! / variance;
      score[i]! += pull * rest;
      for (let j = 0; j <= i; j++) matrix[i]![j]! += pull * slope[j]!;
    }
    return variance;
  });
  return { matrix, score, variances, misfit };
}

/** The volume that the log would show: what came out, as this person judges fullness. */
function expected(fill: TimedFill, table: DayTable, unknowns: readonly number[], days: Days): Volume {
  const { ml, slope } = volumeOf(fill.stretches, table, unknowns, days);
  if (!fill.isJudged) return { ml, slope };
  const factor = Math.exp(unknowns[judgingAt]!);
  const judged = slope.map((value) => value * factor);
  judged[judgingAt] = ml * factor;
  return { ml: ml * factor, slope: judged };
}

function misfit(
  fills: readonly TimedFill[],
  days: Days,
  belief: Belief,
  unknowns: readonly number[],
  variances: readonly number[],
): number {
  const table = dayTable(unknowns);
  return fills.reduce(
    (sum, fill, i) => sum + (fill.volumeMl - expected(fill, table, unknowns, days).ml) ** 2 / variances[i]!,
    priorMisfit(belief, unknowns),
  );
}

function priorMisfit({ means, sds }: Belief, unknowns: readonly number[]): number {
  return unknowns.reduce((sum, value, k) => sum + ((value - means[k]!) / sds[k]!) ** 2, 0);
}

/** Laplace's approximation. */
function logEvidence({ misfit, variances }: NormalEquations, { sds }: Belief, precision: number[][]): number {
  const logVariances = variances.reduce((sum, variance) => sum + Math.log(variance), 0);
  const logPrior = sds.reduce((sum, sd) => sum + 2 * Math.log(sd), 0);
  const logDeterminant = precision.reduce((sum, row, k) => sum + 2 * Math.log(row[k]!), 0);
  return -(misfit + logVariances + logPrior + logDeterminant) / 2;
}

function positive(matrix: number[][]): number[][] {
  const lower = cholesky(matrix);
  if (!lower) throw new Error("the precision of the output rate is not positive definite");
  return lower;
}
