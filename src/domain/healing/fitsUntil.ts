import { type Curve, dayOfSize, sizeOnDay } from "./curve.ts";
import type { CurveEstimate } from "./estimate.ts";
import { type Limits, limitsOf } from "./limits.ts";

/** An opening judged against one size across. */
export interface FitQuestion {
  openingMm: number;
  /** Bare skin allowed on each side. */
  maxGapMm: number;
  firstDay: number;
  lastDay: number;
}

/**
 * The first day on which the opening no longer fits a stoma on this curve: a gap over the limit on each side, or an
 * opening inside the stoma. A day it stopped fitting before the last reading is given as that day, no
 * earlier than the first reading. An opening that does not fit at the last reading although the size is moving
 * toward it, does not fit from the last reading on. `Infinity` where it fits for good.
 */
export function unfitDay(curve: Curve, { openingMm, maxGapMm, firstDay, lastDay }: FitQuestion): number {
  const smallestMm = openingMm - 2 * maxGapMm;
  const shrinking = curve.finalMm < curve.startMm;
  const sizeMm = sizeOnDay(curve, lastDay);
  const stopped = (limitMm: number) => Math.min(lastDay, Math.max(firstDay, dayOfSize(curve, limitMm)));
  if (sizeMm > openingMm) return shrinking ? lastDay : stopped(openingMm);
  if (sizeMm < smallestMm) return shrinking ? stopped(smallestMm) : lastDay;
  return dayOfSize(curve, shrinking ? smallestMm : openingMm);
}

/** That day for every curve of an estimate: its limits, and the days themselves for an oval to combine. */
export interface UnfitDays {
  limits: Limits;
  days: number[];
}

export function unfitDays({ curve, draws, middle }: CurveEstimate, question: FitQuestion): UnfitDays {
  const days = draws.map((draw) => unfitDay(draw, question));
  const limits = limitsOf(days);
  return { limits: middle === "curve" ? { ...limits, estimate: unfitDay(curve, question) } : limits, days };
}

/**
 * The day on which the first of two independent sizes stops fitting: the earlier of both middles where they were
 * read off curves, otherwise the median over all pairs.
 */
export function earlierOf(length: UnfitDays, width: UnfitDays, middle: "curve" | "draws"): UnfitDays {
  const days = length.days.map((day, i) => Math.min(day, width.days[partner(i, width.days.length)]!));
  const limits = limitsOf(days);
  const estimate = Math.min(length.limits.estimate, width.limits.estimate);
  return { limits: middle === "curve" ? { ...limits, estimate } : limits, days };
}

/** Pairs draw i with one far away, so that the pairing carries no order over from one to the other. */
function partner(i: number, count: number): number {
  return Math.floor((((i + 1) * GOLDEN) % 1) * count);
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;
