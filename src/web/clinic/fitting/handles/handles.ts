import { InputError } from "../../../../domain/fault.ts";
import {
  clockHourAt,
  type Outline,
  outlineOf,
  type Point,
  radiusAtClockHour,
} from "../../../../domain/outline/index.ts";

/** Handles stand on clock hours round (0, 0), where a placed outline has its centre. */
export const handleCounts = [12, 24] as const;
export type HandleCount = (typeof handleCounts)[number];

/** A handle cannot be pushed nearer the centre, or further out, than this. */
export const handleRangeMm = { least: 1, most: 100 } as const;

const centre: Point = [0, 0];

export interface Handle {
  /** Clock hour, halves with 24 handles: 12, 0.5 past it, 1, … */
  hour: number;
  radiusMm: number;
}

/** The hours at which `count` handles stand, from 12 on. */
export function handleHours(count: HandleCount): number[] {
  return Array.from({ length: count }, (_, i) => (i === 0 ? 12 : (i * 12) / count));
}

/** The handles of an outline; an hour at which it does not pass has none. */
export function handlesOf(outline: Outline, count: HandleCount): Handle[] {
  return handleHours(count).flatMap((hour) => {
    const radiusMm = radiusAtClockHour(outline, hour, centre);
    return radiusMm === null ? [] : [{ hour, radiusMm }];
  });
}

/**
 * The outline with one handle set to a distance from the centre. Points between it and its neighbours move with
 * it, less the nearer they lie to a neighbour, so the neighbours stay where they are and the detail of a tracing is
 * kept. Null where the outline would run through itself.
 */
export function withHandleAt(
  outline: Outline,
  hour: number,
  radiusMm: number,
  count: HandleCount,
): Outline | null {
  const before = radiusAtClockHour(outline, hour, centre);
  if (before === null) return null;
  const wanted = Math.min(handleRangeMm.most, Math.max(handleRangeMm.least, radiusMm));
  const spacing = 12 / count;
  const moved = outline.map((point): Point => {
    const apart = hoursApart(clockHourAt(point, centre), hour);
    if (apart >= spacing) return point;
    const share = Math.cos((Math.PI / 2) * (apart / spacing)) ** 2;
    const radius = Math.hypot(point[0], point[1]);
    const factor = radius === 0 ? 1 : Math.max(0, 1 + (share * (wanted - before)) / radius);
    return [point[0] * factor, point[1] * factor];
  });
  return isOutline(moved) ? moved : null;
}

function hoursApart(a: number, b: number): number {
  const apart = Math.abs(a - b) % 12;
  return Math.min(apart, 12 - apart);
}

function isOutline(outline: Outline): boolean {
  try {
    outlineOf({ outline });
    return true;
  } catch (error) {
    if (error instanceof InputError) return false;
    throw error;
  }
}
