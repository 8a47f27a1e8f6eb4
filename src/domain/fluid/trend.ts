import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import { calendarDaysBetween, type PlainDate } from "../calendar.ts";
import type { Protocol } from "../protocol/index.ts";
import { isWhole, outputMl, urineMl } from "./figures.ts";
import type { FluidDay, FluidInput } from "./fluid.ts";

/** The course of the day totals, from whole days alone. */
export interface FluidTrend {
  /** Stool, or urine of a urostomy. */
  of: "stomaMl" | "urineMl";
  /** The person's own usual range, from the days before the last; null with too few whole days. */
  usualMl: { median: number; lower: number; upper: number; days: number } | null;
  /** The last whole day, and whether it lies outside that range. */
  last: { date: PlainDate; ml: number; outside: "above" | "below" | null } | null;
  /** Change from day to day, with its 80 % interval; null with too few whole days. */
  slopeMlPerDay: { estimate: number; lower: number; upper: number; level: 0.8 } | null;
}

/** Makes the median absolute deviation a standard deviation where days are normal: 1/Φ⁻¹(3/4). */
const madFactor = 1.482602218505602;

/** @param days by date */
export function trendOf(
  days: readonly FluidDay[],
  stomaType: FluidInput["stomaType"],
  protocol: Protocol,
): FluidTrend {
  const amount = stomaType === "urostomy" ? urineMl : outputMl;
  const whole = days.flatMap((day) => {
    const ml = isWhole(day, protocol) ? amount(day, stomaType) : null;
    return ml === null ? [] : [{ date: day.date, ml }];
  });
  const last = whole.at(-1);
  const recent = last
    ? whole.filter(({ date }) => calendarDaysBetween(date, last.date) <= protocol.usualWindowDays)
    : [];
  const before = recent.slice(0, -1).map(({ ml }) => ml);
  const usualMl = before.length >= protocol.usualRangeDays ? usualRange(before, protocol) : null;
  return {
    of: stomaType === "urostomy" ? "urineMl" : "stomaMl",
    usualMl,
    last: last ? { ...last, outside: usualMl && outside(last.ml, usualMl) } : null,
    slopeMlPerDay: recent.length > protocol.usualRangeDays ? slopeOf(recent) : null,
  };
}

function usualRange(ml: readonly number[], { usualSpreads }: Protocol) {
  const median = medianOf(ml);
  const reach = usualSpreads * madFactor * medianOf(ml.map((value) => Math.abs(value - median)));
  return { median, lower: Math.max(0, median - reach), upper: median + reach, days: ml.length };
}

function outside(ml: number, { lower, upper }: { lower: number; upper: number }): "above" | "below" | null {
  return ml > upper ? "above" : ml < lower ? "below" : null;
}

/**
 * The median of the slopes between every two days, with an interval from Kendall's variance.
 * @source Theil (1950); Sen, J Am Stat Assoc 1968;63:1379, interval from the ranks (N ∓ zσ)/2
 */
function slopeOf(days: readonly { date: PlainDate; ml: number }[]): FluidTrend["slopeMlPerDay"] {
  const slopes = days
    .flatMap((one, i) =>
      days.slice(i + 1).map((other) => (other.ml - one.ml) / calendarDaysBetween(one.date, other.date)),
    )
    .sort((a, b) => a - b);
  const n = days.length;
  const sd = Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
  const reach = normalQuantile(0.9, 0, 1) * sd;
  const lowerRank = Math.max(0, Math.round((slopes.length - reach) / 2) - 1);
  const upperRank = Math.min(slopes.length - 1, Math.round((slopes.length + reach) / 2));
  return { estimate: medianOf(slopes), lower: slopes[lowerRank]!, upper: slopes[upperRank]!, level: 0.8 };
}

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
