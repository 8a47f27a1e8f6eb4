import { type Note, note } from "../note.ts";
import type { Limited } from "./confidence.ts";
import {
  type CurveInterval,
  type CurveRow,
  curveRows,
  type HazardRow,
  hazardRows,
  type SurvivalCurve,
  survivalCurve,
} from "./curve.ts";
import type { Lifetimes } from "./lifetimes.ts";
import { curveQuantile } from "./quantile.ts";
import { type RestrictedMean, restrictedMean } from "./restrictedMean.ts";
import { type NoWeibullFit, type WeibullFit, weibullFit } from "./weibullFit.ts";

/** The day by which a share `p` has failed, off the curve. */
export interface CurveQuantile extends Limited {
  p: number;
}

/** One set of wears in figures. */
export interface WearSummary {
  n: number;
  /** Wears whose ending counts as an event. */
  leaks: number;
  curve: CurveRow[];
  cumulativeHazard: HazardRow[];
  medianDays: Limited;
  quantiles: CurveQuantile[];
  restrictedMean: RestrictedMean | null;
  weibull: WeibullFit | null;
  notes: Note[];
}

const shownQuantiles = [0.1, 0.25, 0.5, 0.75];

/**
 * Curve, quantiles, restricted mean and Weibull fit of one set of wears.
 * @param tauDays of the restricted mean; the longest wear when left out
 */
export function summariseWears(
  lifetimes: Lifetimes,
  interval: CurveInterval = "log-log",
  tauDays: number = lifetimes.longestDays,
): WearSummary {
  const curve = survivalCurve(lifetimes, interval);
  const fit = weibullFit(lifetimes);
  const medianDays = curveQuantile(curve, 0.5);
  return {
    n: lifetimes.n,
    leaks: lifetimes.failures,
    curve: curveRows(curve),
    cumulativeHazard: hazardRows(curve),
    medianDays,
    quantiles: shownQuantiles.map((p) => ({ p, ...curveQuantile(curve, p) })),
    restrictedMean: lifetimes.n === 0 ? null : restrictedMean(curve, tauDays),
    weibull: typeof fit === "string" ? null : fit,
    notes: lifetimes.n === 0 ? [noWears()] : summaryNotes(lifetimes, curve, medianDays, fit, tauDays),
  };
}

function noWears(): Note {
  return note("noWears", "No wears: nothing to compute yet.");
}

function summaryNotes(
  lifetimes: Lifetimes,
  curve: SurvivalCurve,
  medianDays: Limited,
  fit: WeibullFit | NoWeibullFit,
  tauDays: number,
): Note[] {
  const lasting = curve.survival.at(-1)!;
  const failedAtOnce = lifetimes.table.days[0] === 0 ? lifetimes.table.events[0]! : 0;
  return [
    ...(typeof fit === "string" ? [noWeibull(fit)] : []),
    ...(medianDays.estimate === null ? [medianNotReached(lasting)] : []),
    ...(tauDays > lifetimes.longestDays && lasting > 0 ? [tauBeyondData(tauDays, lifetimes)] : []),
    ...(curve.jumps === undefined ? [] : [foundBetweenLooks(lifetimes, curve)]),
    ...(failedAtOnce > 0 && typeof fit !== "string" ? [readAsBeforeShortest(failedAtOnce)] : []),
  ];
}

function noWeibull(why: NoWeibullFit): Note {
  const because = {
    noFailure: "no wear ended in a leak, so how long the seal can last is unbounded",
    noSpread: "no wear outlasts a leak, so the fit would be a cliff at one day",
    noMaximum: "the wears do not determine one",
  }[why];
  return note("noWeibull", `No Weibull fit: ${because}.`, { why });
}

function medianNotReached(lasting: number): Note {
  return note(
    "medianNotReached",
    `The median is not reached: ${Math.round(lasting * 100)} % are still leak-free at the longest wear seen.`,
    { survival: lasting },
  );
}

function tauBeyondData(tauDays: number, { longestDays }: Lifetimes): Note {
  return note(
    "tauBeyondData",
    "The mean reaches past the longest wear seen: the last value of the curve is carried on.",
    { tauDays, longestDays },
  );
}

function foundBetweenLooks({ between }: Lifetimes, { jumps }: SurvivalCurve): Note {
  const count = between.byDays.length;
  const errors = jumps ? "from the observed information" : "not given: there are too many spans";
  return note(
    "foundBetweenLooks",
    `${count} ${count === 1 ? "leak is" : "leaks are"} known only to lie between two looks. The curve is Turnbull's estimate with each drop at the middle of its span; numbers at risk and of leaks are expected numbers; errors are ${errors}; the cumulative hazard has none.`,
    { leaks: count, errors: jumps !== null },
  );
}

function readAsBeforeShortest(failedAtOnce: number): Note {
  return note(
    "failedAtOnce",
    "A seal that failed at 0 days has no place under a Weibull law: the fit takes it as failed before the shortest wear above 0.",
    { wears: failedAtOnce },
  );
}
