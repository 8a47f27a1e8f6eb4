import type { Outline, Point } from "../../domain/outline/index.ts";
import type { Drawing } from "./drawing.ts";

/**
 * Printed inks: on white paper the first three have a contrast of 16, 8 and 7 to 1. The accent belongs to the
 * stoma and nothing else; the tint is barrier, so that the hole is the white part.
 */
export const inks = {
  ink: "#15212C",
  quiet: "#45515C",
  stoma: "#A5154B",
  barrier: "#F3F0E9",
  paper: "#FFFFFF",
} as const;

export interface LineStyle {
  widthMm: number;
  ink?: string;
  /** Length of a dash and of the gap after it. */
  dashMm?: readonly [number, number];
}

/** A straight line, its middle on the two points. */
export function line(drawing: Drawing, from: Point, to: Point, style: LineStyle): void {
  stroke(drawing, style, () => trace(drawing, [from, to]));
}

/** An open line through points, its middle on them. */
export function polyline(drawing: Drawing, points: readonly Point[], style: LineStyle): void {
  stroke(drawing, style, () => trace(drawing, points));
}

/** A closed line, its middle on the outline. */
export function closedLine(drawing: Drawing, outline: Outline, style: LineStyle): void {
  stroke(drawing, style, () => {
    trace(drawing, outline);
    drawing.pdf.closePath();
  });
}

/** A filled rectangle. */
export function box(
  { pdf }: Drawing,
  [x, y]: Point,
  size: { widthMm: number; heightMm: number },
  ink: string = inks.ink,
): void {
  pdf.rect(x, y, size.widthMm, size.heightMm).fill(ink);
}

/** Fills outlines laid over each other by the even-odd rule: the second is a hole in the first. */
export function fillOutlines(drawing: Drawing, outlines: readonly Outline[], ink: string = inks.ink): void {
  for (const outline of outlines) {
    trace(drawing, outline);
    drawing.pdf.closePath();
  }
  drawing.pdf.fill(ink, "even-odd");
}

function trace({ pdf }: Drawing, points: readonly Point[]): void {
  points.forEach(([x, y], index) => {
    if (index === 0) pdf.moveTo(x, y);
    else pdf.lineTo(x, y);
  });
}

function stroke({ pdf }: Drawing, { widthMm, ink = inks.ink, dashMm }: LineStyle, path: () => void): void {
  pdf.save().lineWidth(widthMm).lineJoin("round");
  if (dashMm) pdf.dash(dashMm[0], { space: dashMm[1] });
  path();
  pdf.stroke(ink).restore();
}
