import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import { type Moments, momentsOf } from "./moments.ts";
import { remaining, type SplitLaw, type WearLaw } from "./wearLaw.ts";

export interface RenewalOptions {
  /** How long the wear that is on has been on already. */
  currentWearDays?: number;
  /** Steps in the shorter of the planned interval and the scale: cost grows with its square, the error falls so. */
  cells?: number;
}

/** Enough for seven digits of every chance at the shapes that wears have. */
const exactCells = 128;

/**
 * Chances of 0, 1, 2, … completed wears within a horizon: the renewal process of wears that end when they fail or at
 * the planned change. Works out the law of the sum of n wears by repeated convolution. The step at the planned change
 * is carried exactly; the rest is integrated against the exact mass and first moment of each cell, on two grids whose
 * difference removes the leading error.
 *
 * @param horizonDays from now; the wear that is on counts once it is completed
 * @returns pmf, index = number of completed wears, adding up to 1
 * @source Cox 1962, Renewal Theory: P(N(T) ≥ n) = P(S_n ≤ T)
 */
export function renewalCounts(
  law: WearLaw,
  horizonDays: number,
  { currentWearDays = 0, cells = exactCells }: RenewalOptions = {},
): Float64Array {
  if (horizonDays <= 0) return Float64Array.of(1);
  if (horizonDays / Math.min(law.scaleDays, law.plannedDays ?? law.scaleDays) > manyWears) {
    return normalCounts(momentsOf(law), horizonDays);
  }
  const coarse = atLeast(law, horizonDays, currentWearDays, Math.ceil(cells / 2));
  const fine = atLeast(law, horizonDays, currentWearDays, 2 * Math.ceil(cells / 2));
  // A law below shape 1 begins with an infinite slope, which costs the grid some of its order.
  const ratio = 2 ** Math.min(2, 1 + law.shape);
  const reached = fine.map((value, n) =>
    Math.min(1, Math.max(0, (ratio * value - (coarse[n] ?? 0)) / (ratio - 1))),
  );
  const pmf = new Float64Array(reached.length);
  let before = 1;
  for (let n = 0; n < reached.length; n++) {
    // Rounding must not let a later count be likelier to be reached than an earlier one.
    const next = Math.min(before, reached[n]!);
    pmf[n] = before - next;
    before = next;
  }
  pmf[reached.length - 1]! += before;
  return pmf;
}

/** Where this many scales or planned changes pass within the horizon, wears are counted by the law they tend to. */
export const manyWears = 150;

/**
 * @source Cox 1962: N(T) tends to a normal law with mean T/μ + (σ² − μ²)/2μ² and variance T σ²/μ³
 */
function normalCounts({ meanDays, varianceDays2 }: Moments, horizonDays: number): Float64Array {
  const mean = horizonDays / meanDays + (varianceDays2 / meanDays ** 2 - 1) / 2;
  const sd = Math.max(1e-6, Math.sqrt((horizonDays * varianceDays2) / meanDays ** 3));
  const most = Math.ceil(mean + 8 * sd) + 1;
  const below = (count: number) => (count < 0 ? 0 : count >= most ? 1 : normalCdf(count + 0.5, mean, sd));
  return Float64Array.from({ length: most + 1 }, (_, count) => below(count) - below(count - 1));
}

/** Chances that are left out of a count's tail. */
const negligible = 1e-13;
/** Points of a grid; a law of many short wears is known well enough by fewer steps each. */
const mostPoints = 2000;
const leastCells = 4;

/** The law of a sum of wears: a step of `share` at `days`, and a part without steps, kept on the grid. */
interface SumLaw {
  step: { days: number; share: number };
  smooth: Float64Array;
}

/** P(S_n ≤ T) for n = 1, 2, … until nothing is left. */
function atLeast(law: WearLaw, horizonDays: number, ageDays: number, cells: number): number[] {
  const reached: number[] = [];
  for (const { step, smooth } of sums(law, gridFor(law, horizonDays, cells), ageDays)) {
    const chance = smooth.at(-1)! + (step.days <= horizonDays + sameDay ? step.share : 0);
    reached.push(chance);
    if (chance < negligible) break;
  }
  return reached;
}

const sameDay = 1e-9;

/** The laws of the sums of 1, 2, … wears, the first of them already `ageDays` old. */
export function* sums(law: WearLaw, grid: Grid, ageDays: number): Generator<SumLaw> {
  const next = remaining(law, 0);
  const kernel = kernelOf(next, grid.stepDays, Math.ceil(longestDays(law, grid) / grid.stepDays - sameDay));
  const first = remaining(law, ageDays);
  let sum: SumLaw = {
    step: { days: first.stepDays, share: first.stepShare },
    smooth: grid.days.map((days) => first.endedBy(Math.min(days, first.stepDays))),
  };
  for (;;) {
    yield sum;
    sum = withOneMore(sum, { grid, kernel, next });
  }
}

/** The day that no wear, or hardly any, outlasts. */
function longestDays({ shape, scaleDays, plannedDays }: WearLaw, { days }: Grid): number {
  const unplanned = scaleDays * (-Math.log(negligible)) ** (1 / shape);
  return Math.min(unplanned, plannedDays ?? Number.POSITIVE_INFINITY, days.at(-1)!);
}

/** Days at even steps that end at the horizon; the first lies within a step of now. */
export interface Grid {
  stepDays: number;
  days: Float64Array;
}

/** A whole number of steps to the planned change, so that its step falls on the grid. */
export function gridFor({ scaleDays, plannedDays }: WearLaw, horizonDays: number, cells: number): Grid {
  const reachDays = Math.min(plannedDays ?? horizonDays, horizonDays);
  const unitDays = Math.min(reachDays, scaleDays);
  const affordable = Math.max(leastCells, Math.floor((mostPoints * unitDays) / horizonDays));
  const stepDays = reachDays / Math.ceil((reachDays / unitDays) * Math.min(cells, affordable));
  const count = Math.floor(horizonDays / stepDays + sameDay);
  const offset = horizonDays - count * stepDays;
  return { stepDays, days: Float64Array.from({ length: count + 1 }, (_, i) => offset + i * stepDays) };
}

/** Weights of a function's values at whole steps back, so that straight pieces are integrated exactly. */
function kernelOf({ endedBy }: SplitLaw, stepDays: number, cells: number): Float64Array {
  const weights = new Float64Array(cells + 1);
  let before = 0;
  for (let j = 0; j < cells; j++) {
    const after = endedBy((j + 1) * stepDays);
    const mean = meanOver(endedBy, j * stepDays, stepDays, j === 0);
    // Integrating by parts: the share of the cell's mass that lies toward its far end.
    const far = after - mean;
    weights[j]! += after - before - far;
    weights[j + 1]! += far;
    before = after;
  }
  return weights;
}

/** Gauss-Legendre nodes and weights on 0 to 1, from memory, checked by their integrals of powers in the tests. */
const nodes = [0.0694318442029737, 0.3300094782075719, 0.6699905217924281, 0.9305681557970263];
const nodeWeights = [0.1739274225687269, 0.3260725774312731, 0.3260725774312731, 0.1739274225687269];

/** Mean of a curve over a cell; the first may start with an infinite slope, which a change of variable removes. */
function meanOver(curve: (days: number) => number, from: number, width: number, isFirst: boolean): number {
  let mean = 0;
  for (let i = 0; i < nodes.length; i++) {
    const u = nodes[i]!;
    mean += isFirst
      ? nodeWeights[i]! * 4 * u ** 3 * curve(width * u ** 4)
      : nodeWeights[i]! * curve(from + width * u);
  }
  return mean;
}

function withOneMore(
  { step, smooth }: SumLaw,
  { grid, kernel, next }: { grid: Grid; kernel: Float64Array; next: SplitLaw },
): SumLaw {
  const cells = kernel.length - 1;
  const toStep = Number.isFinite(next.stepDays) ? Math.round(next.stepDays / grid.stepDays) : smooth.length;
  const sum = new Float64Array(smooth.length);
  for (let i = 0; i < smooth.length; i++) {
    let value = 0;
    const last = Math.min(cells, i);
    for (let j = 0; j <= last; j++) value += kernel[j]! * smooth[i - j]!;
    if (i >= toStep) value += next.stepShare * smooth[i - toStep]!;
    const past = grid.days[i]! - step.days;
    if (past > 0) value += step.share * next.endedBy(past);
    sum[i] = value;
  }
  return {
    step: { days: step.days + next.stepDays, share: step.share * next.stepShare },
    smooth: sum,
  };
}

/** The smallest count that is not passed with a probability, as the reference tables define it. */
export function countQuantile(pmf: ArrayLike<number>, p: number): number {
  let below = 0;
  for (let n = 0; n < pmf.length; n++) {
    below += pmf[n]!;
    if (below >= p - 1e-12) return n;
  }
  return pmf.length - 1;
}

export function countMean(pmf: ArrayLike<number>): number {
  let mean = 0;
  for (let n = 1; n < pmf.length; n++) mean += n * pmf[n]!;
  return mean;
}
