import { checkBar } from "../check-bar.ts";
import { type Block, space, stacked } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { type Column, heading, paragraph } from "../drawing/paragraphs.ts";
import { bodyMm } from "../drawing/text.ts";
import type { CuttingSheet } from "./input.ts";

/** The two upright bars with their labels; they stand at the right edge, down to the foot. */
export const uprightBarsMm = { width: 19, height: 101.4 } as const;

/** "Check before you cut": what the bars must measure, the two bars across and a line to write on. */
export function barCheck(drawing: Drawing, sheet: CuttingSheet, column: Column): Block {
  const body = { sizeMm: bodyMm };
  return stacked([
    heading(drawing, "Check before you cut", column),
    paragraph(drawing, goodInWords(sheet), column, body),
    paragraph(drawing, badInWords(sheet), column, { ...body, weight: "bold" }),
    space(5.4),
    barsAcross(drawing, column),
    space(1.6),
    paragraph(drawing, "100 mm bars measure: across ____________ mm, upright ____________ mm", column, body),
    space(1.2),
  ]);
}

/** The bars once more on a second page: paper can be drawn in askew or another tray set otherwise. */
export function barCheckAgain(drawing: Drawing, column: Column): Block {
  return stacked([
    heading(drawing, "Check this page too", column),
    paragraph(drawing, "Its bars must be as good as those of page 1.", column, { sizeMm: bodyMm }),
    space(5.4),
    barsAcross(drawing, column),
    space(1.6),
  ]);
}

function barsAcross(drawing: Drawing, { leftMm }: Column): Block {
  return {
    heightMm: 5,
    draw(topMm) {
      checkBar(drawing, { direction: "across", lengthMm: 100, xMm: leftMm, yMm: topMm, label: "under" });
      checkBar(drawing, { direction: "across", lengthMm: 50, xMm: leftMm + 108, yMm: topMm, label: "under" });
    },
  };
}

/** The two upright bars, ticks to the left. */
export function drawUprightBars(drawing: Drawing, rightMm: number, topMm: number): void {
  const longX = rightMm - 14.8;
  checkBar(drawing, { direction: "upright", lengthMm: 100, xMm: longX, yMm: topMm, label: "right" });
  checkBar(drawing, { direction: "upright", lengthMm: 50, xMm: rightMm, yMm: topMm, label: "under" });
}

function goodInWords({ protocol }: CuttingSheet): string {
  const allowed = (lengthMm: number) => {
    const off = (lengthMm * protocol.barTolerancePercent) / 100;
    return `${decimal(lengthMm - off)} to ${decimal(lengthMm + off)} mm`;
  };
  return `Measure all four bars, end to end. Good: ${allowed(100)} and ${allowed(50)}.`;
}

function badInWords({ printScale }: CuttingSheet): string {
  const otherwise = printScale
    ? `For the printer that gave ${decimal(100 * printScale.x)} by ${decimal(100 * printScale.y)} mm.`
    : "Print at actual size or ask for a corrected sheet.";
  return `Not measured or not good: do not cut. ${otherwise}`;
}

/** Up to two decimals, without zeros at the end. */
function decimal(value: number): string {
  return `${Number(value.toFixed(2))}`;
}
