import type { Outline, Point } from "../../../../domain/outline/index.ts";

/** Points closer than this say nothing about a stoma's edge. */
const leastStepMm = 0.02;

/**
 * An outline as it is kept in the record: to a thousandth of a millimetre, far below any hand, without points so
 * close that rounding could fold the line.
 */
export function storedOutline(outline: Outline): { outline: [number, number][] } {
  const kept: Point[] = [];
  for (const point of outline) {
    if (kept.length === 0 || apartMm(point, kept.at(-1)!) >= leastStepMm) kept.push(point);
  }
  while (kept.length > 3 && apartMm(kept[0]!, kept.at(-1)!) < leastStepMm) kept.pop();
  return { outline: kept.map(([x, y]): [number, number] => [rounded(x), rounded(y)]) };
}

function apartMm(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

function rounded(mm: number): number {
  return Math.round(mm * 1000) / 1000 + 0;
}
