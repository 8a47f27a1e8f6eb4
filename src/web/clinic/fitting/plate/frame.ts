import type { Outline, Point } from "../../../../domain/outline/index.ts";

/** How millimetres on the skin lie on the plate, in CSS pixels of its own drawing. */
export interface Frame {
  widthPx: number;
  heightPx: number;
  centrePx: Point;
  pxPerMm: number;
  /** Radius of the clock ring. */
  ringPx: number;
  /** The reader's text size, held to what the plate can carry. */
  textPx: number;
}

/** Radii that the plate can show inside its clock ring, mm. */
const views = [10, 15, 20, 25, 30, 40, 50, 65, 80, 105] as const;

/** The closest view that shows everything out to `radiusMm`. */
export function viewFor(radiusMm: number): number {
  return views.find((view) => view >= radiusMm) ?? views.at(-1)!;
}

/** The next view closer in or further out. */
export function viewBeside(viewMm: number, step: -1 | 1): number {
  const at = views.findIndex((view) => view >= viewMm);
  return views[Math.min(views.length - 1, Math.max(0, at + step))]!;
}

/** Chart text follows the reader's size, but a dozen figures must still stand round a plate of a phone's width. */
const mostTextShare = 1 / 19;

/** Room round the clock ring for what is written there, in text sizes: the head's arrow stands above the 12. */
const hoursBand = 2.2;
const headBand = 3.5;
const footBand = 2.3;
/** Room inside the ring for the gap figures. */
const figuresBand = 2.8;

/** Lays out a plate of a given width that shows `viewMm` each way. */
export function frameOf(widthPx: number, rootPx: number, viewMm: number): Frame {
  const textPx = Math.min(rootPx, widthPx * mostTextShare);
  const ringPx = widthPx / 2 - hoursBand * textPx;
  const heightPx = Math.round(2 * ringPx + (headBand + footBand) * textPx);
  return {
    widthPx,
    heightPx,
    centrePx: [widthPx / 2, ringPx + headBand * textPx],
    pxPerMm: (ringPx - figuresBand * textPx) / viewMm,
    ringPx,
    textPx,
  };
}

/** Millimetres to pixels: x to the viewer's right, y up. */
export function toPx({ centrePx: [x, y], pxPerMm }: Frame, [xMm, yMm]: Point): Point {
  return [x + xMm * pxPerMm, y - yMm * pxPerMm];
}

export function toMm({ centrePx: [x, y], pxPerMm }: Frame, [px, py]: Point): Point {
  return [(px - x) / pxPerMm, (y - py) / pxPerMm];
}

/** A place on the plate at a clock hour, a number of pixels from the centre. */
export function atHour({ centrePx: [x, y] }: Frame, hour: number, radiusPx: number): Point {
  const turn = (hour * Math.PI) / 6;
  return [x + radiusPx * Math.sin(turn), y - radiusPx * Math.cos(turn)];
}

/** Path data of a closed outline. */
export function outlinePath(frame: Frame, outline: Outline): string {
  return `${linePath(frame, outline)}Z`;
}

/** Path data of a line that stays open. */
export function linePath(frame: Frame, line: readonly Point[]): string {
  return line
    .map((point, i) => {
      const [x, y] = toPx(frame, point);
      return `${i === 0 ? "M" : "L"}${x.toFixed(2)} ${y.toFixed(2)}`;
    })
    .join("");
}

/** The furthest that any of the outlines goes from the centre of the plate, mm. */
export function furthestMm(outlines: readonly (Outline | null | undefined)[]): number {
  let furthest = 0;
  for (const outline of outlines) {
    for (const [x, y] of outline ?? []) furthest = Math.max(furthest, Math.hypot(x, y));
  }
  return furthest;
}
