import { closeDrawing, type Drawing, openDrawing } from "../drawing/drawing.ts";
import { canPrint } from "../drawing/typeface.ts";
import { checkedSheet } from "./check.ts";
import { barCheck, barCheckAgain } from "./checks.ts";
import { type Face, faceOf } from "./face.ts";
import type { CuttingSheet } from "./input.ts";
import { cautions, steps } from "./instructions.ts";
import { besideBars, drawPage, holdsFaces, layOutPage, refuseTooLarge, type SheetPage } from "./page.ts";

export type { CuttingSheet } from "./input.ts";

/**
 * The cutting sheet as a PDF, 1:1: both faces on one page, or a page each where the hole is large.
 * The inner edge of the heavy line is the scissor path; nothing is ever scaled to fit.
 *
 * @throws InputError without two identifiers, with an outline that cannot be cut, a hole too large for the
 * paper or a print scale that is none
 */
export async function cuttingSheet(input: CuttingSheet): Promise<Buffer> {
  const sheet = checkedSheet(input);
  const drawing = openDrawing({
    title: `Cutting sheet ${sheet.sheetNumber}${canPrint(sheet.person.name) ? `, ${sheet.person.name}` : ""}`,
    subject: sheet.stomaLabel,
    paper: sheet.paper,
    printScale: sheet.printScale,
    madeOn: sheet.madeOn,
  });
  for (const page of pagesOf(drawing, sheet)) drawPage(drawing, sheet, page);
  return closeDrawing(drawing);
}

function pagesOf(drawing: Drawing, sheet: CuttingSheet): SheetPage[] {
  const [skin, you] = [faceOf(sheet, "skin"), faceOf(sheet, "you")];
  const together = layOutPage(drawing, sheet, {
    faces: [skin, you],
    sections: [
      barCheck(drawing, sheet, besideBars),
      steps(drawing, sheet, "the left-hand shape", besideBars),
      cautions(drawing, sheet, besideBars),
    ],
  });
  return holdsFaces(together) ? [together] : pageEach(drawing, sheet, skin, you);
}

function pageEach(drawing: Drawing, sheet: CuttingSheet, skin: Face, you: Face): SheetPage[] {
  const first = [barCheck(drawing, sheet, besideBars), steps(drawing, sheet, "the shape above", besideBars)];
  const second = [barCheckAgain(drawing, besideBars), cautions(drawing, sheet, besideBars)];
  const pages = [
    layOutPage(drawing, sheet, { faces: [skin], sections: first, number: "page 1 of 2" }),
    layOutPage(drawing, sheet, { faces: [you], sections: second, number: "page 2 of 2" }),
  ];
  for (const page of pages) if (!holdsFaces(page)) refuseTooLarge(sheet, page);
  return pages;
}
