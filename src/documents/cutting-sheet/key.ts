import type { Point } from "../../domain/outline/index.ts";
import type { Block } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import type { Column } from "../drawing/paragraphs.ts";
import { box, inks, type LineStyle, line } from "../drawing/strokes.ts";
import { tagged } from "../drawing/structure.ts";
import { smallestMm, widthMm, write } from "../drawing/text.ts";
import { faceLines } from "./draw-face.ts";
import { type Face, heavyLineMm } from "./face.ts";
import type { CuttingSheet } from "./input.ts";

interface Entry {
  text: string;
  /** Left out for the heavy line. */
  style?: LineStyle;
  tint?: string;
}

const sampleMm = 8;
const textFromMm = sampleMm + 1.6;
const style = { sizeMm: smallestMm, ink: inks.quiet };

/** What each line of a face means, in one row in the middle of a column. */
export function keyRow(drawing: Drawing, sheet: CuttingSheet, face: Face, column: Column): Block {
  const gapMm = 7;
  const entries = entriesOf(sheet, face);
  const widths = entries.map(({ text }) => textFromMm + widthMm(drawing, text, style));
  const totalMm = widths.reduce((sum, width) => sum + width, 0) + gapMm * (entries.length - 1);
  return {
    heightMm: 5.8,
    draw(topMm) {
      let x = column.leftMm + (column.widthMm - totalMm) / 2;
      entries.forEach((entry, index) => {
        drawEntry(drawing, entry, [x, topMm]);
        x += widths[index]! + gapMm;
      });
    },
  };
}

/** The same, one under the other. */
export function keyStack(drawing: Drawing, sheet: CuttingSheet, face: Face, column: Column): Block {
  const rowMm = 4.8;
  const entries = entriesOf(sheet, face);
  return {
    heightMm: entries.length * rowMm,
    draw: (topMm) =>
      entries.forEach((entry, row) => {
        drawEntry(drawing, entry, [column.leftMm, topMm + row * rowMm]);
      }),
  };
}

function entriesOf({ protocol }: CuttingSheet, { openingLines }: Face): Entry[] {
  const entries: Entry[] = [
    { text: "cut along its inner edge" },
    { text: "stoma", style: faceLines.stoma },
    { text: `${protocol.barrierMarginMm} mm of barrier to keep`, style: faceLines.ring, tint: inks.barrier },
  ];
  if (openingLines.length > 0) entries.push({ text: "too tight for scissors", style: faceLines.opening });
  return entries;
}

function drawEntry(drawing: Drawing, entry: Entry, [left, top]: Point): void {
  tagged(drawing, "P", () => {
    drawSample(drawing, entry, [left, top + 2.2]);
    write(drawing, entry.text, { xMm: left + textFromMm, baselineMm: top + 3.3 }, style);
  });
}

function drawSample(drawing: Drawing, { style, tint }: Entry, [x, y]: Point): void {
  if (tint) box(drawing, [x, y], { widthMm: sampleMm, heightMm: 2 }, tint);
  if (style) line(drawing, [x, y], [x + sampleMm, y], style);
  else box(drawing, [x, y - heavyLineMm / 2], { widthMm: sampleMm, heightMm: heavyLineMm });
}
