import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import type { Protocol } from "../protocol/index.ts";
import { type Curve, sizeOnDay } from "./curve.ts";
import { evenPoints } from "./evenPoints.ts";
import { derivatives, type LeastSquaresFit, leastSquares } from "./leastSquares.ts";
import { type Limits, limitsOf, UPPER_80 } from "./limits.ts";
import { drawCurves } from "./posterior.ts";
import type { Measurement } from "./readings.ts";
import { studentQuantile } from "./studentT.ts";
import { cholesky } from "./symmetric.ts";

/** A curve with its errors, whichever way it was found. */
export interface CurveEstimate {
  curve: Curve;
  /** Null where no degree of freedom is left to tell the errors by. */
  standardErrors: { startMm: number; finalMm: number; timeConstantDays: number } | null;
  residualSdMm: number | null;
  /** Size on a day with 80 % limits; null where there are no errors. */
  sizeOn: ((day: number) => Limits) | null;
  /** Equally likely curves; empty where there are no errors. */
  draws: readonly Curve[];
  /** Where the middle of a day asked of the draws is to be read: off the curve itself, or the draws' median. */
  middle: "curve" | "draws";
}

/** Curves drawn from the covariance of a least-squares fit, for the limits of days. */
const PLAIN_DRAWS = 1000;

/** The posterior under the weak prior: medians, posterior standard deviations, credible limits. */
export function weakEstimate(
  measurements: readonly Measurement[],
  protocol: Protocol,
  heldStartMm?: number,
): CurveEstimate {
  const draws = drawCurves(measurements, protocol, heldStartMm);
  const median = (of: (draw: (typeof draws)[number]) => number) => limitsOf(draws.map(of)).estimate;
  return {
    curve: {
      startMm: median((draw) => draw.startMm),
      finalMm: median((draw) => draw.finalMm),
      timeConstantDays: geometricMean(draws.map((draw) => draw.timeConstantDays)),
    },
    standardErrors: {
      startMm: standardDeviation(draws.map((draw) => draw.startMm)),
      finalMm: standardDeviation(draws.map((draw) => draw.finalMm)),
      timeConstantDays: standardDeviation(draws.map((draw) => draw.timeConstantDays)),
    },
    residualSdMm: geometricMean(draws.map((draw) => draw.wobbleMm)),
    sizeOn: (day) => limitsOf(draws.map((draw) => sizeOnDay(draw, day))),
    draws,
    middle: "draws",
  };
}

/**
 * Plain least squares on the sizes as they stand, each taken as equally exact. Errors s²·(JᵀJ)⁻¹; limits of
 * sizes by the delta method with Student's t. Null where the readings do not bend.
 */
export function plainEstimate(
  measurements: readonly Measurement[],
  heldStartMm?: number,
): CurveEstimate | null {
  const points = measurements.map(({ day, upToMm }) => ({ day, mm: upToMm }));
  const fit = leastSquares(points, heldStartMm);
  if (fit === null) return null;
  const { curve, covariance, degreesOfFreedom, sumOfSquares } = fit;
  if (covariance === null) {
    return { curve, standardErrors: null, residualSdMm: null, sizeOn: null, draws: [], middle: "curve" };
  }
  const errors = covariance.map((row, i) => Math.sqrt(row[i]!));
  const [start, final, logTime] = heldStartMm === undefined ? errors : [0, ...errors];
  return {
    curve,
    standardErrors: {
      startMm: start!,
      finalMm: final!,
      timeConstantDays: curve.timeConstantDays * logTime!,
    },
    residualSdMm: Math.sqrt(sumOfSquares / degreesOfFreedom),
    sizeOn: sizeLimits(fit, covariance),
    draws: plainDraws(fit, covariance),
    middle: "curve",
  };
}

function sizeLimits({ curve, degreesOfFreedom }: LeastSquaresFit, covariance: number[][]) {
  const reach = studentQuantile(UPPER_80, degreesOfFreedom);
  return (day: number): Limits => {
    const slopes = derivatives(curve, day, covariance.length === 2);
    const variance = slopes.reduce(
      (sum, slope, i) =>
        sum + slopes.reduce((part, other, j) => part + slope * other * covariance[i]![j]!, 0),
      0,
    );
    const estimate = sizeOnDay(curve, day);
    const half = reach * Math.sqrt(Math.max(0, variance));
    return { estimate, lower80: estimate - half, upper80: estimate + half };
  };
}

/**
 * Curves from the normal with the fit's covariance (time constant on the log scale), widened so that the 80 %
 * limits of each unknown are Student's.
 */
function plainDraws({ curve, degreesOfFreedom }: LeastSquaresFit, covariance: number[][]): Curve[] {
  const lower = cholesky(covariance);
  if (lower === null) return Array.from({ length: PLAIN_DRAWS }, () => curve);
  const wider = studentQuantile(UPPER_80, degreesOfFreedom) / normalQuantile(UPPER_80, 0, 1);
  return evenPoints(PLAIN_DRAWS).map((point) => {
    const normal = point.map((share) => wider * normalQuantile(share, 0, 1));
    const shift = lower.map((row) => row.reduce((sum, value, k) => sum + value * normal[k]!, 0));
    const [start, final, logTime] = shift.length === 2 ? [0, ...shift] : shift;
    return {
      startMm: curve.startMm + start!,
      finalMm: curve.finalMm + final!,
      timeConstantDays: curve.timeConstantDays * Math.exp(logTime!),
    };
  });
}

function geometricMean(values: readonly number[]): number {
  return Math.exp(values.reduce((sum, value) => sum + Math.log(value), 0) / values.length);
}

function standardDeviation(values: readonly number[]): number {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length);
}
