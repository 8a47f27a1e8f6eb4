import type { Outline, Point } from "./shape.ts";

/** Area by the shoelace formula; positive where the outline runs counterclockwise as the viewer sees it. */
export function signedAreaMm2(outline: Outline): number {
  // About the first point, so that an outline far from the origin loses no digits.
  const [x0, y0] = outline[0]!;
  let twice = 0;
  for (let at = 1; at < outline.length - 1; at += 1) {
    const [ax, ay] = outline[at]!;
    const [bx, by] = outline[at + 1]!;
    twice += (ax - x0) * (by - y0) - (bx - x0) * (ay - y0);
  }
  return twice / 2;
}

export function areaMm2(outline: Outline): number {
  return Math.abs(signedAreaMm2(outline));
}

export function perimeterMm(outline: Outline): number {
  let sum = 0;
  let last = outline.at(-1)!;
  for (const point of outline) {
    sum += distanceMm(last, point);
    last = point;
  }
  return sum;
}

/** Between two places. Not `Math.hypot`, whose care for huge numbers costs ten times as much. */
export function distanceMm(a: Point, b: Point): number {
  const dx = b[0] - a[0];
  const dy = b[1] - a[1];
  return Math.sqrt(dx * dx + dy * dy);
}

/** Centre of the enclosed area. */
export function centroidMm(outline: Outline): Point {
  const [x0, y0] = outline[0]!;
  let twice = 0;
  let sumX = 0;
  let sumY = 0;
  for (let at = 1; at < outline.length - 1; at += 1) {
    const ax = outline[at]![0] - x0;
    const ay = outline[at]![1] - y0;
    const bx = outline[at + 1]![0] - x0;
    const by = outline[at + 1]![1] - y0;
    const cross = ax * by - bx * ay;
    twice += cross;
    sumX += cross * (ax + bx);
    sumY += cross * (ay + by);
  }
  return [x0 + sumX / (3 * twice), y0 + sumY / (3 * twice)];
}
