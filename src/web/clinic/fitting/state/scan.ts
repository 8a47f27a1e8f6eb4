import type { Point } from "../../../../domain/outline/index.ts";

/** A picture laid under the grid to trace over. It stays in this tab; only the line drawn on it is kept. */
export interface Scan {
  url: string;
  widthPx: number;
  heightPx: number;
  /** Millimetres in a pixel of the picture. */
  mmPerPx: number;
  /** False until two marks a known distance apart were given. */
  toScale: boolean;
  /** Two places on the picture, px from its middle, y down. */
  marks: readonly [Point, Point];
  /** The distance between the marks, as typed, mm. */
  apartMm: string;
  /** Turn that brings the head side up, clockwise, degrees. */
  turnDeg: number;
  /** Taken or traced from the skin side: left and right change places. */
  mirrored: boolean;
  /** Where its middle lies on the plate, mm. */
  middleMm: Point;
}

/** Marks nearer than this many pixels of the picture give no scale worth having. */
export const leastApartPx = 40;

/** A picture that fills the plate, marks a quarter in from its sides. */
export function newScan(url: string, widthPx: number, heightPx: number, acrossMm: number): Scan {
  return {
    url,
    widthPx,
    heightPx,
    mmPerPx: acrossMm / Math.max(widthPx, heightPx),
    toScale: false,
    marks: [
      [-widthPx / 4, heightPx / 4],
      [widthPx / 4, heightPx / 4],
    ],
    apartMm: "50",
    turnDeg: 0,
    mirrored: false,
    middleMm: [0, 0],
  };
}

/** Pixels between the marks. */
export function apartPx({ marks: [a, b] }: Scan): number {
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

/** Where a pixel of the picture lies on the plate, mm: scaled, mirrored, turned, moved. */
export function onPlate({ mmPerPx, mirrored, turnDeg, middleMm }: Scan, [px, py]: Point): Point {
  const [x, y] = [px * mmPerPx * (mirrored ? -1 : 1), -py * mmPerPx];
  const turn = (turnDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  return [middleMm[0] + x * cos + y * sin, middleMm[1] + y * cos - x * sin];
}

/** The pixel of the picture that lies at a place of the plate. */
export function onPicture({ mmPerPx, mirrored, turnDeg, middleMm }: Scan, [xMm, yMm]: Point): Point {
  const [dx, dy] = [xMm - middleMm[0], yMm - middleMm[1]];
  const turn = (turnDeg * Math.PI) / 180;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const [x, y] = [dx * cos - dy * sin, dy * cos + dx * sin];
  return [(x / mmPerPx) * (mirrored ? -1 : 1), -y / mmPerPx];
}

/**
 * The picture at the scale that the marks give, about the middle between them.
 * Null where they lie too close together to give one.
 */
export function toScale(scan: Scan, apartMm: number): Scan | null {
  const apart = apartPx(scan);
  if (!(apartMm > 0) || apart < leastApartPx) return null;
  const scaled = { ...scan, mmPerPx: apartMm / apart, toScale: true };
  const middle = onPlate(scan, [0, 0]);
  return { ...scaled, middleMm: middle };
}
