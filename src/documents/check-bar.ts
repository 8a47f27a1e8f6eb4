import type { Drawing } from "./drawing/drawing.ts";
import { box } from "./drawing/strokes.ts";
import { figure } from "./drawing/structure.ts";
import { type TextPlace, write } from "./drawing/text.ts";

/** A bar of known length for a ruler: exactly `lengthMm` from the outer edge of one end to that of the other. */
export interface CheckBar {
  direction: "across" | "upright";
  lengthMm: number;
  /** The bar's left end on its base line, or its upper end; ticks rise up or to the left from there. */
  xMm: number;
  yMm: number;
  /** Where its length is written: under its middle or its end, or to the right of its end. */
  label: "under" | "right";
}

const baseWidthMm = 0.6;
const endWidthMm = 0.4;

/** Draws a check bar with a tick each millimetre and its length written at its end. */
export function checkBar(drawing: Drawing, bar: CheckBar): void {
  const alt = `Check bar, ${bar.lengthMm} mm ${bar.direction}`;
  figure(drawing, alt, () => {
    drawLine(drawing, bar, 0, bar.lengthMm, baseWidthMm);
    for (let atMm = 0; atMm <= bar.lengthMm; atMm++) drawTick(drawing, bar, atMm);
    write(drawing, `${bar.lengthMm} mm`, labelPlace(bar), { sizeMm: 3.4, weight: "bold" });
  });
}

function labelPlace({ direction, lengthMm, xMm, yMm, label }: CheckBar): TextPlace {
  const [endX, endY] = direction === "across" ? [xMm + lengthMm, yMm] : [xMm, yMm + lengthMm];
  if (label === "right") return { xMm: endX + 1.2, baselineMm: endY };
  if (direction === "across") return { xMm: xMm + lengthMm / 2, baselineMm: yMm + 4, align: "centre" };
  return { xMm: endX, baselineMm: endY + 4, align: "right" };
}

/** A tick; those at the ends lie inside the bar's length, so that the ends are where a ruler is laid. */
function drawTick(drawing: Drawing, { lengthMm, ...bar }: CheckBar, atMm: number): void {
  const atEnd = atMm === 0 || atMm === lengthMm;
  const heightMm = atMm % 10 === 0 ? 3.6 : atMm % 5 === 0 ? 2.2 : 1.4;
  const widthMm = atEnd ? endWidthMm : atMm % 10 === 0 ? 0.3 : 0.15;
  const fromMm = atMm === 0 ? 0 : atEnd ? lengthMm - widthMm : atMm - widthMm / 2;
  drawLine(drawing, { lengthMm, ...bar }, fromMm, widthMm, heightMm);
}

/** A rectangle along the bar, rising from its base line. */
function drawLine(drawing: Drawing, bar: CheckBar, fromMm: number, alongMm: number, riseMm: number): void {
  if (bar.direction === "across") {
    box(drawing, [bar.xMm + fromMm, bar.yMm - riseMm], { widthMm: alongMm, heightMm: riseMm });
  } else {
    box(drawing, [bar.xMm - riseMm, bar.yMm + fromMm], { widthMm: riseMm, heightMm: alongMm });
  }
}
