import { type Curve, sizeOnDay } from "./curve.ts";
import { cholesky, inverse, solve } from "./symmetric.ts";

export interface Point {
  day: number;
  mm: number;
}

/**
 * A curve fitted by plain least squares. Unknowns in order: startMm (unless held), finalMm, log timeConstantDays.
 * Covariance s²·(JᵀJ)⁻¹ with s² = residual sum of squares / (n − unknowns); null where no degree of freedom is left.
 */
export interface LeastSquaresFit {
  curve: Curve;
  sumOfSquares: number;
  degreesOfFreedom: number;
  covariance: number[][] | null;
}

const MOST_STEPS = 500;

/** A Marquardt step that changes no unknown by more than this share of itself ends the search. */
const SETTLED = 1e-13;

/** A step is kept if the sum of squares falls, or stays the same but for rounding. */
const ROUNDING = 1 + 1e-13;

/** A far start must not throw the time constant further than this factor's logarithm in one step. */
const LONGEST_LOG_STEP = 1;

/** Time constants tried: from a tenth of the shortest gap between days to a hundred times their whole span. */
const SCAN_POINTS = 200;

/**
 * Least squares from the best time constant of a scan, so that no starting values are needed: given the time
 * constant the model is linear. Null where the readings do not bend, so that no finite curve is best.
 */
export function leastSquares(points: readonly Point[], heldStartMm?: number): LeastSquaresFit | null {
  const days = [...new Set(points.map(({ day }) => day))].sort((a, b) => a - b);
  const unknowns = heldStartMm === undefined ? 3 : 2;
  if (days.length < unknowns) return null;
  const span = Math.max(days.at(-1)! - days[0]!, heldStartMm === undefined ? 0 : days.at(-1)!);
  const shortest = Math.min(...days.slice(1).map((day, i) => day - days[i]!));
  const from = Math.log(shortest / 10);
  const to = Math.log(span * 100);
  let best: { curve: Curve; sumOfSquares: number } | null = null;
  for (let i = 0; i < SCAN_POINTS; i++) {
    const timeConstantDays = Math.exp(from + ((to - from) * i) / (SCAN_POINTS - 1));
    const curve = linearFit(points, timeConstantDays, heldStartMm);
    if (curve === null) continue;
    const sum = sumOfSquares(points, curve);
    if (best === null || sum < best.sumOfSquares) best = { curve, sumOfSquares: sum };
  }
  if (best === null) return null;
  const fit = leastSquaresFrom(points, best.curve, heldStartMm !== undefined);
  if (fit === null) return null;
  const logTime = Math.log(fit.curve.timeConstantDays);
  return logTime > from && logTime < to ? fit : null;
}

/**
 * Least squares from given starting values, by Levenberg-Marquardt with the analytic derivatives and Marquardt's
 * scaling. Null where it does not settle or where the unknowns cannot be told apart.
 * @source Marquardt 1963, J. Soc. Indust. Appl. Math. 11:431
 */
export function leastSquaresFrom(
  points: readonly Point[],
  from: Curve,
  startHeld: boolean,
): LeastSquaresFit | null {
  let curve = from;
  let sum = sumOfSquares(points, curve);
  let damping = 1e-3;
  for (let step = 0; step < MOST_STEPS; step++) {
    const { normal, gradient } = normalEquations(points, curve, startHeld);
    const lower = cholesky(
      normal.map((row, i) => row.map((value, j) => (i === j ? value * (1 + damping) : value))),
    );
    if (lower === null) return null;
    const change = solve(lower, gradient);
    const next = moved(curve, change, startHeld);
    const nextSum = sumOfSquares(points, next);
    const small = isSmall(change, curve, startHeld);
    if (nextSum <= sum * ROUNDING) {
      curve = next;
      sum = nextSum;
      damping = Math.max(damping / 10, 1e-15);
    } else {
      damping *= 10;
    }
    if (small) return withCovariance(points, curve, sum, startHeld);
    if (!Number.isFinite(damping)) return null;
  }
  return null;
}

/** Derivatives of the size on a day by start (unless held), final and log time constant. */
export function derivatives(curve: Curve, day: number, startHeld: boolean): number[] {
  const { startMm, finalMm, timeConstantDays } = curve;
  const left = Math.exp(-day / timeConstantDays);
  const byFinalAndTime = [1 - left, ((startMm - finalMm) * left * day) / timeConstantDays];
  return startHeld ? byFinalAndTime : [left, ...byFinalAndTime];
}

function normalEquations(points: readonly Point[], curve: Curve, startHeld: boolean) {
  const unknowns = startHeld ? 2 : 3;
  const normal = Array.from({ length: unknowns }, () => new Array<number>(unknowns).fill(0));
  const gradient = new Array<number>(unknowns).fill(0);
  for (const { day, mm } of points) {
    const slopes = derivatives(curve, day, startHeld);
    const residual = mm - sizeOnDay(curve, day);
    for (let i = 0; i < unknowns; i++) {
      gradient[i]! += slopes[i]! * residual;
      for (let j = 0; j < unknowns; j++) normal[i]![j]! += slopes[i]! * slopes[j]!;
    }
  }
  return { normal, gradient };
}

function moved(
  { startMm, finalMm, timeConstantDays }: Curve,
  change: readonly number[],
  startHeld: boolean,
): Curve {
  const whole = startHeld ? [0, ...change] : change;
  const share = Math.min(1, LONGEST_LOG_STEP / Math.abs(whole[2]!));
  const [start, final, logTime] = whole.map((value) => value * share);
  return {
    startMm: startMm + start!,
    finalMm: finalMm + final!,
    timeConstantDays: timeConstantDays * Math.exp(logTime!),
  };
}

function isSmall(change: readonly number[], { startMm, finalMm }: Curve, startHeld: boolean): boolean {
  const sizes = Math.max(Math.abs(startMm), Math.abs(finalMm));
  const scale = startHeld ? [sizes, 1] : [sizes, sizes, 1];
  return change.every((value, i) => Math.abs(value) <= SETTLED * scale[i]!);
}

function withCovariance(
  points: readonly Point[],
  curve: Curve,
  sum: number,
  startHeld: boolean,
): LeastSquaresFit | null {
  const { normal } = normalEquations(points, curve, startHeld);
  const lower = cholesky(normal);
  if (lower === null) return null;
  const degreesOfFreedom = points.length - normal.length;
  const covariance =
    degreesOfFreedom > 0
      ? inverse(lower).map((row) => row.map((value) => (value * sum) / degreesOfFreedom))
      : null;
  return { curve, sumOfSquares: sum, degreesOfFreedom, covariance };
}

function sumOfSquares(points: readonly Point[], curve: Curve): number {
  return points.reduce((sum, { day, mm }) => sum + (mm - sizeOnDay(curve, day)) ** 2, 0);
}

/** Best start and final for one time constant: a straight-line fit of the sizes on exp(−day / timeConstant). */
function linearFit(points: readonly Point[], timeConstantDays: number, heldStartMm?: number): Curve | null {
  const left = points.map(({ day }) => Math.exp(-day / timeConstantDays));
  if (heldStartMm !== undefined) {
    const gone = left.map((share) => 1 - share);
    const change = ratio(
      points.reduce((sum, { mm }, i) => sum + gone[i]! * (mm - heldStartMm), 0),
      gone.reduce((sum, share) => sum + share * share, 0),
    );
    return change === null ? null : { startMm: heldStartMm, finalMm: heldStartMm + change, timeConstantDays };
  }
  const meanLeft = left.reduce((a, b) => a + b, 0) / left.length;
  const meanMm = points.reduce((sum, { mm }) => sum + mm, 0) / points.length;
  const swelling = ratio(
    points.reduce((sum, { mm }, i) => sum + (left[i]! - meanLeft) * (mm - meanMm), 0),
    left.reduce((sum, share) => sum + (share - meanLeft) ** 2, 0),
  );
  if (swelling === null) return null;
  const finalMm = meanMm - swelling * meanLeft;
  return { startMm: finalMm + swelling, finalMm, timeConstantDays };
}

function ratio(above: number, below: number): number | null {
  return below > 0 && Number.isFinite(above / below) ? above / below : null;
}
