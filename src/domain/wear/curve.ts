import { finiteOrNull, halfWidth, wearLevel } from "./confidence.ts";
import { type JumpCovariance, survivalErrors } from "./jumpCovariance.ts";
import type { Lifetimes } from "./lifetimes.ts";
import type { RiskTable } from "./riskTable.ts";
import { expectedFailures } from "./turnbull.ts";

/** How limits of the curve are drawn; each as R's survival package computes it. */
export type CurveInterval = "log-log" | "log" | "plain";

/**
 * The leak-free curve in columns, one entry a distinct day (a million wears make a million rows). NaN where
 * a limit or an error does not exist; {@link curveRows} turns rows into JSON.
 */
export interface SurvivalCurve extends RiskTable {
  /** Share of wears that last beyond this day. */
  survival: Float64Array;
  se: Float64Array;
  lower: Float64Array;
  upper: Float64Array;
  cumulativeHazard: Float64Array;
  cumulativeHazardSe: Float64Array;
  interval: CurveInterval;
  /** Longest wear seen, days. */
  longestDays: number;
  /** Only where failures are interval-censored: see {@link expectedFailures}. */
  jumps?: JumpCovariance | null;
}

/**
 * Leak-free curve (Kaplan-Meier, Greenwood's error) and cumulative hazard (Nelson-Aalen). Where a failure is
 * known only to lie between two looks it is Turnbull's estimate instead, each jump drawn at the middle of
 * the span in which the data place it, with errors from the observed information.
 * @source Kaplan and Meier 1958; Greenwood 1926; Aalen 1978; Turnbull 1976; conventions of R's survfit
 */
export function survivalCurve(lifetimes: Lifetimes, interval: CurveInterval = "log-log"): SurvivalCurve {
  const { between, longestDays } = lifetimes;
  if (between.byDays.length === 0) return productLimit(lifetimes.table, interval, longestDays);
  const { table, jumps } = expectedFailures(lifetimes);
  const curve = productLimit(table, interval, longestDays);
  const relative = survivalErrors(table.days, jumps).map((error, i) => error / curve.survival[i]!);
  const se = relative.map((error, i) => error * curve.survival[i]!);
  const limits = limitsOf(curve.survival, relative, interval);
  return { ...curve, ...limits, se, cumulativeHazardSe: se.map(() => Number.NaN), jumps };
}

function productLimit(table: RiskTable, interval: CurveInterval, longestDays: number): SurvivalCurve {
  const rows = table.days.length;
  const survival = new Float64Array(rows);
  const relativeSe = new Float64Array(rows);
  const cumulativeHazard = new Float64Array(rows);
  const cumulativeHazardSe = new Float64Array(rows);
  let surviving = 1;
  let greenwood = 0;
  let hazard = 0;
  let hazardVariance = 0;
  for (let i = 0; i < rows; i++) {
    const events = table.events[i]!;
    const atRisk = table.atRisk[i]!;
    if (events > 0) {
      surviving *= lasting(events, atRisk) / atRisk;
      greenwood += events / (atRisk * lasting(events, atRisk));
      hazard += events / atRisk;
      hazardVariance += events / (atRisk * atRisk);
    }
    survival[i] = surviving;
    relativeSe[i] = surviving > 0 ? Math.sqrt(greenwood) : Number.NaN;
    cumulativeHazard[i] = hazard;
    cumulativeHazardSe[i] = Math.sqrt(hazardVariance);
  }
  return {
    ...table,
    survival,
    se: survival.map((value, i) => value * relativeSe[i]!),
    ...limitsOf(survival, relativeSe, interval),
    cumulativeHazard,
    cumulativeHazardSe,
    interval,
    longestDays,
  };
}

/** Expected counts carry rounding: a remainder of less than a billionth of a wear is none. */
function lasting(events: number, atRisk: number): number {
  const left = atRisk - events;
  return left < 1e-9 ? 0 : left;
}

/** 95 % limits of each row. @param relativeSe standard error of the survival over the survival */
function limitsOf(
  survival: Float64Array,
  relativeSe: Float64Array,
  interval: CurveInterval,
): { lower: Float64Array; upper: Float64Array } {
  const limits = { "log-log": logLogLimits, log: logLimits, plain: plainLimits }[interval];
  const z = halfWidth(wearLevel);
  const lower = new Float64Array(survival.length);
  const upper = new Float64Array(survival.length);
  for (let i = 0; i < survival.length; i++) {
    if (i > 0 && survival[i] === survival[i - 1]) {
      lower[i] = lower[i - 1]!;
      upper[i] = upper[i - 1]!;
    } else limits(survival[i]!, z * relativeSe[i]!, i, lower, upper);
  }
  return { lower, upper };
}

/** Writes the limits of one row in place: a million rows make no garbage. */
type WriteLimits = (s: number, reach: number, row: number, lower: Float64Array, upper: Float64Array) => void;

const logLogLimits: WriteLimits = (s, reach, row, lower, upper) => {
  const logS = s > 0 && s < 1 ? Math.log(s) : Number.NaN;
  const spread = Math.exp(-reach / logS);
  lower[row] = Math.exp(logS * spread);
  upper[row] = Math.exp(logS / spread);
};

const logLimits: WriteLimits = (s, reach, row, lower, upper) => {
  const factor = s > 0 ? Math.exp(reach) : Number.NaN;
  lower[row] = s / factor;
  upper[row] = Math.min(s * factor, 1);
};

const plainLimits: WriteLimits = (s, reach, row, lower, upper) => {
  lower[row] = Math.max(s - s * reach, 0);
  upper[row] = Math.min(s + s * reach, 1);
};

/** One day of the curve, for JSON and screens. */
export interface CurveRow {
  days: number;
  atRisk: number;
  events: number;
  censored: number;
  survival: number;
  se: number | null;
  lower: number | null;
  upper: number | null;
}

/** One day of the cumulative hazard. */
export interface HazardRow {
  days: number;
  hazard: number;
  se: number | null;
}

/** The curve as rows, NaN as null. */
export function curveRows(curve: SurvivalCurve): CurveRow[] {
  return Array.from(curve.days, (days, i) => ({
    days,
    atRisk: curve.atRisk[i]!,
    events: curve.events[i]!,
    censored: curve.censored[i]!,
    survival: curve.survival[i]!,
    se: finiteOrNull(curve.se[i]!),
    lower: finiteOrNull(curve.lower[i]!),
    upper: finiteOrNull(curve.upper[i]!),
  }));
}

/** The cumulative hazard as rows. */
export function hazardRows(curve: SurvivalCurve): HazardRow[] {
  return Array.from(curve.days, (days, i) => ({
    days,
    hazard: curve.cumulativeHazard[i]!,
    se: finiteOrNull(curve.cumulativeHazardSe[i]!),
  }));
}
