import { CholeskyDecomposition, Matrix } from "ml-matrix";
import { runningSum } from "./jumpMass.ts";
import { sameDay } from "./riskTable.ts";
import type { Spans } from "./spans.ts";

/** How sure the estimate is of the size of each of its jumps; the last may stand for "after everything seen". */
export interface JumpCovariance {
  /** Where each jump is drawn, days; infinite for what outlasts every look. */
  days: Float64Array;
  covariance: Matrix;
}

/** More jumps than this and the matrix is too large to invert while somebody waits: no errors are given. */
const mostJumps = 400;

/**
 * Covariance of the sizes of the jumps: inverse of the observed information over the places that carry
 * mass, with the sizes adding up to one. Without interval-censored failures it gives Greenwood's formula.
 * Null where the information cannot be inverted or there are more than 400 jumps.
 * @source Turnbull 1976, section 5
 */
export function jumpCovariance(
  spans: Spans,
  mass: Float64Array,
  days: readonly number[],
): JumpCovariance | null {
  const carrying = days.flatMap((_, j) => (mass[j]! > 0 ? [j] : []));
  const jumps = carrying.length;
  if (jumps > mostJumps) return null;
  const covariance = Matrix.zeros(jumps, jumps);
  if (jumps > 1) {
    const free = inverse(informationOfFree(spanInformation(spans, mass, carrying)));
    if (!free) return null;
    // The last size is one less the others.
    const spread = Matrix.eye(jumps, jumps - 1);
    for (let j = 0; j < jumps - 1; j++) spread.set(jumps - 1, j, -1);
    covariance.add(spread.mmul(free).mmul(spread.transpose()));
  }
  return { days: Float64Array.from(carrying, (j) => days[j]!), covariance };
}

/** Σ weight / (mass in the span)² over the spans that cover both places of each pair. */
function spanInformation(spans: Spans, mass: Float64Array, carrying: readonly number[]): Matrix {
  const rank = ranks(mass);
  const before = runningSum(mass);
  // A span covers a square of pairs: mark its corners, then add up along both axes.
  const steps = Matrix.zeros(carrying.length + 1, carrying.length + 1);
  for (let i = 0; i < spans.weight.length; i++) {
    const first = rank[spans.first[i]!]!;
    const beyond = rank[spans.last[i]! + 1]!;
    const covered = before[spans.last[i]! + 1]! - before[spans.first[i]!]!;
    const share = spans.weight[i]! / covered ** 2;
    for (const [row, column, sign] of [
      [first, first, 1],
      [first, beyond, -1],
      [beyond, first, -1],
      [beyond, beyond, 1],
    ] as const)
      steps.set(row, column, steps.get(row, column) + sign * share);
  }
  return summedUp(steps, carrying.length);
}

/** Places that carry mass before each place, and before the end. */
function ranks(mass: Float64Array): Int32Array {
  const rank = new Int32Array(mass.length + 1);
  for (let j = 0; j < mass.length; j++) rank[j + 1] = rank[j]! + (mass[j]! > 0 ? 1 : 0);
  return rank;
}

function summedUp(steps: Matrix, size: number): Matrix {
  const sums = Matrix.zeros(size, size);
  for (let row = 0; row < size; row++) {
    let along = 0;
    for (let column = 0; column < size; column++) {
      along += steps.get(row, column);
      sums.set(row, column, along + (row > 0 ? sums.get(row - 1, column) : 0));
    }
  }
  return sums;
}

/** Information on all sizes but the last, which makes them add up to one. */
function informationOfFree(all: Matrix): Matrix {
  const r = all.rows - 1;
  const free = Matrix.zeros(r, r);
  for (let j = 0; j < r; j++)
    for (let k = 0; k <= j; k++) {
      const value = all.get(j, k) - all.get(j, r) - all.get(r, k) + all.get(r, r);
      free.set(j, k, value);
      free.set(k, j, value);
    }
  return free;
}

function inverse(information: Matrix): Matrix | null {
  const cholesky = new CholeskyDecomposition(information);
  return cholesky.isPositiveDefinite() ? cholesky.solve(Matrix.eye(information.rows)) : null;
}

/** Standard error of Σ factor × size of jump. */
export function jumpFunctionalSe({ covariance }: JumpCovariance, factors: readonly number[]): number {
  const column = Matrix.columnVector([...factors]);
  return Math.sqrt(Math.max(0, column.dot(covariance.mmul(column))));
}

/** Standard error of the share lasting beyond each day; NaN where it cannot be given. */
export function survivalErrors(days: Float64Array, jumps: JumpCovariance | null): Float64Array {
  const errors = new Float64Array(days.length).fill(Number.NaN);
  if (!jumps) return errors;
  let beyond = jumps.days.length;
  let variance = 0;
  for (let i = days.length - 1; i >= 0; i--) {
    while (beyond > 0 && jumps.days[beyond - 1]! > days[i]! && !sameDay(jumps.days[beyond - 1]!, days[i]!)) {
      beyond--;
      variance += jumps.covariance.get(beyond, beyond);
      for (let j = beyond + 1; j < jumps.days.length; j++) variance += 2 * jumps.covariance.get(beyond, j);
    }
    errors[i] = Math.sqrt(Math.max(0, variance));
  }
  return errors;
}
