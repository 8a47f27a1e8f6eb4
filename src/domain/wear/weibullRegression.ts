import { CholeskyDecomposition, Matrix } from "ml-matrix";
import { type WeibullLives, weibullCurvature } from "./weibullLikelihood.ts";

/** Wears that share their covariates. `x` starts with 1 for the intercept. */
export interface RegressionCell {
  lives: WeibullLives;
  x: readonly number[];
}

/** log T = x · coefficients + sigma W, with W a standard minimum extreme value. */
export interface WeibullRegression {
  /** On the scale of log days. */
  coefficients: number[];
  /** 1 / shape. */
  sigma: number;
  /** Of the days themselves, density of each seen failure included. */
  logLikelihood: number;
  /** Of the coefficients and, last, log sigma: inverse of the observed information. */
  covariance: number[][];
}

/** A step this short, in squared standard errors, is followed by one last full step. */
const settled = 1e-10;
const mostSteps = 100;
const shortestStep = 1e-12;
/** What the log-likelihood of a million wears may be off by rounding, as a share. */
const rounding = 1e-11;

/**
 * Accelerated-failure-time Weibull fit by maximum likelihood. Newton's method on (eta, shape) with halving;
 * null where no finite maximum is reached.
 * @source as R's survreg with dist = "weibull"
 */
export function fitWeibullRegression(cells: readonly RegressionCell[]): WeibullRegression | null {
  const centre = meanLogDays(cells);
  let at = evaluate(cells, startingPoint(cells, centre), centre);
  for (let step = 0; step < mostSteps; step++) {
    const direction = newtonStep(at);
    if (!direction) return null;
    if (direction.decrement < settled) {
      const end = evaluate(cells, moved(at.theta, direction.by, 1), centre);
      return Number.isFinite(end.logLikelihood) ? inLogDays(end, centre) : null;
    }
    const next = uphill(cells, at, direction, centre);
    if (!next) return null;
    at = next;
  }
  return null;
}

/** The log-likelihood at theta = (one eta a covariate, shape). */
interface Position {
  theta: number[];
  logLikelihood: number;
  gradient: number[];
  /** Negative of the second derivatives. */
  information: Matrix;
}

function evaluate(cells: readonly RegressionCell[], theta: number[], centre: number): Position {
  const size = theta.length;
  const shape = theta[size - 1]!;
  const gradient = new Array<number>(size).fill(0);
  const information = Matrix.zeros(size, size);
  let logLikelihood = 0;
  for (const { lives, x } of cells) {
    const eta = x.reduce((sum, value, j) => sum + value * theta[j]!, 0);
    const curvature = weibullCurvature(lives, eta, shape, centre);
    logLikelihood += curvature.logLikelihood;
    x.forEach((xj, j) => {
      gradient[j]! += xj * curvature.byEta;
      subtract(information, j, size - 1, xj * curvature.byEtaShape);
      subtract(information, size - 1, j, xj * curvature.byEtaShape);
      x.forEach((xk, k) => {
        subtract(information, j, k, xj * xk * curvature.byEtaEta);
      });
    });
    gradient[size - 1]! += curvature.byShape;
    subtract(information, size - 1, size - 1, curvature.byShapeShape);
  }
  return { theta, logLikelihood, gradient, information };
}

function subtract(matrix: Matrix, row: number, column: number, value: number): void {
  matrix.set(row, column, matrix.get(row, column) - value);
}

interface Direction {
  by: number[];
  /** Squared length of the step in standard errors. */
  decrement: number;
}

function newtonStep({ gradient, information }: Position): Direction | null {
  const by = inverseOf(information)?.mmul(Matrix.columnVector(gradient)).to1DArray();
  if (!by?.every(Number.isFinite)) return null;
  return { by, decrement: by.reduce((sum, value, j) => sum + value * gradient[j]!, 0) };
}

/** Halves the step until the shape stays positive and the likelihood rises enough. */
function uphill(
  cells: readonly RegressionCell[],
  at: Position,
  { by, decrement }: Direction,
  centre: number,
): Position | null {
  for (let length = 1; length > shortestStep; length /= 2) {
    const theta = moved(at.theta, by, length);
    if (theta[theta.length - 1]! <= 0) continue;
    const next = evaluate(cells, theta, centre);
    const enough = 1e-4 * length * decrement - rounding * Math.abs(at.logLikelihood);
    if (next.logLikelihood >= at.logLikelihood + enough) return next;
  }
  return null;
}

function moved(theta: readonly number[], by: readonly number[], length: number): number[] {
  return theta.map((value, j) => value + length * by[j]!);
}

/** An exponential law (shape 1) with the rate of all wears together. */
function startingPoint(cells: readonly RegressionCell[], centre: number): number[] {
  let days = 0;
  let failures = 0;
  for (const { lives } of cells) {
    failures += lives.failures;
    lives.logDays.forEach((l, i) => {
      days += lives.total[i]! * Math.exp(l);
    });
    lives.logBy.forEach((l) => {
      days += Math.exp(l);
    });
  }
  const others = new Array<number>(cells[0]!.x.length - 1).fill(0);
  return [Math.log(days / failures) - centre, ...others, 1];
}

function meanLogDays(cells: readonly RegressionCell[]): number {
  let sum = 0;
  let count = 0;
  for (const { lives } of cells)
    for (const logs of [lives.logDays, lives.logBy]) {
      sum += logs.reduce((total, l) => total + l, 0);
      count += logs.length;
    }
  return sum / count;
}

/** From (eta, shape) to coefficients on log days and log sigma; the delta method is exact at the maximum. */
function inLogDays(end: Position, centre: number): WeibullRegression | null {
  const covariance = inverseOf(end.information);
  if (!covariance) return null;
  const last = end.theta.length - 1;
  const shape = end.theta[last]!;
  const etas = end.theta.slice(0, last);
  const jacobian = Matrix.zeros(last + 1, last + 1);
  etas.forEach((eta, j) => {
    jacobian.set(j, j, 1 / shape);
    jacobian.set(j, last, -eta / shape ** 2);
  });
  jacobian.set(last, last, -1 / shape);
  return {
    coefficients: etas.map((eta, j) => eta / shape + (j === 0 ? centre : 0)),
    sigma: 1 / shape,
    logLikelihood: end.logLikelihood,
    covariance: jacobian.mmul(covariance).mmul(jacobian.transpose()).to2DArray(),
  };
}

function inverseOf(information: Matrix): Matrix | null {
  if (!information.to1DArray().every(Number.isFinite)) return null;
  const cholesky = new CholeskyDecomposition(information);
  return cholesky.isPositiveDefinite() ? cholesky.solve(Matrix.eye(information.rows)) : null;
}
