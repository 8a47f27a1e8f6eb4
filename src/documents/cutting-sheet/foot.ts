import { type Block, stacked } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { type Column, paragraph, rule } from "../drawing/paragraphs.ts";
import { inks } from "../drawing/strokes.ts";
import { plainDate } from "../words.ts";
import type { CuttingSheet } from "./input.ts";

/** Numbers to call, the sheet's own number and who decides: at the foot of every page. */
export function sheetFoot(drawing: Drawing, sheet: CuttingSheet, column: Column): Block {
  return stacked([
    rule(drawing, column, 0.9, 1),
    paragraph(drawing, numbersInWords(sheet), column, { sizeMm: 4, weight: "bold" }),
    paragraph(drawing, sheetInWords(sheet), column, { sizeMm: 3.6, ink: inks.quiet }),
  ]);
}

function numbersInWords({ clinic }: CuttingSheet): string {
  const numbers = [
    `Nurse ${clinic.nursePhone}`,
    clinic.outOfHoursPhone && `out of hours ${clinic.outOfHoursPhone}`,
    clinic.emergencyNumber
      ? `emergency ${clinic.emergencyNumber}`
      : "in danger: the emergency number of your country",
  ];
  return numbers.filter((text) => typeof text === "string").join(" · ");
}

function sheetInWords({ sheetNumber, replaces, demo }: CuttingSheet): string {
  const before = replaces ? `, replaces sheet ${replaces.sheetNumber} of ${plainDate(replaces.madeOn)}` : "";
  const decides = "Your local protocol and your own clinicians decide.";
  return `${demo ? "DEMO · " : ""}Sheet ${sheetNumber}${before} · ${decides}`;
}
