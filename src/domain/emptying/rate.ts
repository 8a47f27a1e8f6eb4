import type { PlainDate } from "../calendar.ts";
import { quartersADay, type Stretch } from "./clock.ts";

/** Waves round the clock, once to six times a day: three meals can be told apart, and each has its shape. */
const waves = 6;

/** Where the unknowns stand: log rate in mL/h, two for each wave, the way fullness is judged, then a day each. */
export const levelAt = 0;
export const judgingAt = 1 + 2 * waves;
const firstDayAt = judgingAt + 1;

/** The days that have an effect of their own, each with its place among the unknowns. */
export type Days = ReadonlyMap<PlainDate, number>;

export function daysOf(dates: Iterable<PlainDate>): Days {
  return new Map([...new Set(dates)].sort().map((date, i) => [date, firstDayAt + i]));
}

export function unknownsOf(days: Days): number {
  return firstDayAt + days.size;
}

/** The waves at each quarter of the day. */
const shapes: readonly (readonly number[])[] = Array.from({ length: quartersADay }, (_, quarter) =>
  Array.from({ length: waves }, (_, k) => {
    const angle = (2 * Math.PI * (k + 1) * (quarter + 0.5)) / quartersADay;
    return [Math.cos(angle), Math.sin(angle)];
  }).flat(),
);

/**
 * Prior standard deviation of each wave. The variance falls as the wave's number, slowly, so that a peak after a meal
 * is not ruled out; together the waves have the deviation asked for at every hour.
 */
export function waveSds(clockLogSd: number): number[] {
  const shares = Array.from({ length: waves }, (_, k) => 1 / (k + 1));
  const total = shares.reduce((a, b) => a + b);
  return shares.flatMap((share) => {
    const sd = clockLogSd * Math.sqrt(share / total);
    return [sd, sd];
  });
}

const shapesWithLevel = 1 + 2 * waves;
const quarterHours = 24 / quartersADay;

/** The volume from midnight to each quarter of the middle day, and the same times each wave: 97 rows of 13. */
export type DayTable = Float64Array;

export function dayTable(unknowns: readonly number[]): DayTable {
  const table = new Float64Array((quartersADay + 1) * shapesWithLevel);
  for (const [quarter, shape] of shapes.entries()) {
    const log = shape.reduce((sum, value, k) => sum + unknowns[levelAt + 1 + k]! * value, unknowns[levelAt]!);
    const ml = quarterHours * Math.exp(log);
    const row = quarter * shapesWithLevel;
    const next = row + shapesWithLevel;
    table[next] = table[row]! + ml;
    for (let k = 1; k < shapesWithLevel; k++) table[next + k] = table[row + k]! + ml * shape[k - 1]!;
  }
  return table;
}

/** The volume that the rate makes of elapsed time, mL, and how it moves with each unknown. */
export interface Volume {
  ml: number;
  slope: number[];
}

export function noVolume(unknowns: number): Volume {
  return { ml: 0, slope: new Array<number>(unknowns).fill(0) };
}

/** Adds what one stretch of time brings. Days without a place among the unknowns are like the middle day. */
export function add(
  volume: Volume,
  { date, from, to }: Stretch,
  table: DayTable,
  unknowns: readonly number[],
  days: Days,
): void {
  const dayAt = days.get(date);
  const factor = dayAt === undefined ? 1 : Math.exp(unknowns[dayAt]!);
  const [start, end] = [placeIn(from), placeIn(to)];
  for (let k = 0; k < shapesWithLevel; k++) {
    const part = factor * (valueAt(table, end, k) - valueAt(table, start, k));
    volume.slope[levelAt + k]! += part;
    if (k > 0) continue;
    volume.ml += part;
    if (dayAt !== undefined) volume.slope[dayAt]! += part;
  }
}

/** Row of the table at or before a time in quarters, and how far on to the next. */
interface Place {
  row: number;
  beyond: number;
}

function placeIn(quarters: number): Place {
  const row = Math.min(Math.floor(quarters), quartersADay - 1);
  return { row: row * shapesWithLevel, beyond: quarters - row };
}

/** Within a quarter the rate is even. */
function valueAt(table: DayTable, { row, beyond }: Place, k: number): number {
  const start = table[row + k]!;
  return start + beyond * (table[row + shapesWithLevel + k]! - start);
}

export function volumeOf(
  stretches: readonly Stretch[],
  table: DayTable,
  unknowns: readonly number[],
  days: Days,
): Volume {
  const volume = noVolume(unknowns.length);
  for (const stretch of stretches) add(volume, stretch, table, unknowns, days);
  return volume;
}
