import { solveSymmetric } from "./solve.ts";

/** Fills `into` with the residuals of the unknowns given; always the same number of them. */
export type Residuals = (unknowns: Float64Array, into: Float64Array) => void;

export interface Fit {
  unknowns: Float64Array;
  residuals: Float64Array;
  sumOfSquares: number;
  /** Jᵀ·J where the search ended, rows one after the other. */
  normal: Float64Array;
}

interface Options {
  /** How many residuals there are. */
  count: number;
  /** Length by which each unknown is moved to see how the residuals change. */
  steps: readonly number[];
  mostRounds?: number;
  /** A round that lowers the sum by less than this share of itself is the last. */
  settled?: number;
}

/**
 * Least squares by damped Gauss-Newton steps with derivatives by central differences.
 * @source Marquardt 1963, J. Soc. Indust. Appl. Math. 11:431
 */
export function leastSquares(
  from: readonly number[],
  residualsOf: Residuals,
  { count, steps, mostRounds = 60, settled = 1e-12 }: Options,
): Fit {
  const n = from.length;
  let unknowns = Float64Array.from(from);
  let residuals = new Float64Array(count);
  residualsOf(unknowns, residuals);
  let sum = squared(residuals);
  let damping = 1e-3;
  let { normal, gradient } = slopes(unknowns, residuals, residualsOf, steps);
  for (let round = 0; round < mostRounds; round++) {
    const damped = normal.slice();
    for (let k = 0; k < n; k++) damped[k * n + k]! += damping * (normal[k * n + k]! + 1e-12);
    const step = solveSymmetric(damped, gradient);
    const tried = unknowns.map((value, k) => value - (step?.[k] ?? 0));
    const then = new Float64Array(count);
    residualsOf(tried, then);
    const sumThen = squared(then);
    if (step !== null && sumThen < sum) {
      const gain = sum - sumThen;
      [unknowns, residuals] = [tried, then];
      sum = sumThen;
      damping = Math.max(damping / 8, 1e-12);
      ({ normal, gradient } = slopes(unknowns, residuals, residualsOf, steps));
      if (gain <= settled * sum) break;
    } else {
      damping *= 6;
      if (damping > 1e9) break;
    }
  }
  return { unknowns, residuals, sumOfSquares: sum, normal };
}

function squared(residuals: Float64Array): number {
  let sum = 0;
  for (const residual of residuals) sum += residual * residual;
  return sum;
}

function slopes(at: Float64Array, residuals: Float64Array, residualsOf: Residuals, steps: readonly number[]) {
  const n = at.length;
  const columns = steps.map((step, k) => {
    const [above, below] = [at.slice(), at.slice()];
    above[k]! += step;
    below[k]! -= step;
    const [up, down] = [new Float64Array(residuals.length), new Float64Array(residuals.length)];
    residualsOf(above, up);
    residualsOf(below, down);
    return up.map((value, i) => (value - down[i]!) / (2 * step));
  });
  const normal = new Float64Array(n * n);
  const gradient = new Float64Array(n);
  for (let row = 0; row < n; row++) {
    for (let column = 0; column <= row; column++) {
      const sum = dot(columns[row]!, columns[column]!);
      normal[row * n + column] = sum;
      normal[column * n + row] = sum;
    }
    gradient[row] = dot(columns[row]!, residuals);
  }
  return { normal, gradient };
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}
