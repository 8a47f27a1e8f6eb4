import { card } from "../../domain/frame-card/index.ts";
import { checkBar } from "../check-bar.ts";
import { space, stacked } from "../drawing/block.ts";
import { closeDrawing, type Drawing, newPage, openDrawing } from "../drawing/drawing.ts";
import { checkPaper, type Paper, type PrintScale, sheetAreaMm } from "../drawing/paper.ts";
import { type Column, heading, list, rule } from "../drawing/paragraphs.ts";
import { inks } from "../drawing/strokes.ts";
import { tagged } from "../drawing/structure.ts";
import { bodyMm, shrink, write } from "../drawing/text.ts";
import { canPrint } from "../drawing/typeface.ts";
import { drawCard } from "./card.ts";

/** What a page with a frame card needs to know. */
export interface FrameCard {
  paper: Paper;
  /** The clinic's mark for cards printed together; left off where no typeface has its script. */
  batchLabel?: string;
  /** What this printer made of the 100 mm bars, measured over nominal; the drawing is corrected by it. */
  printScale?: PrintScale;
}

const column: Column = { leftMm: 2, widthMm: sheetAreaMm.widthMm - 4 };
const rightMm = column.leftMm + column.widthMm;
const middleMm = sheetAreaMm.widthMm / 2;
const cardTopMm = 19;
const cardEndMm = cardTopMm + card.sideMm;

/**
 * The paper measuring frame as a PDF, 1:1: the card to cut out, a 100 mm bar each way and how to use it.
 *
 * @throws InputError for a paper that is not known or a print scale that is none
 */
export async function frameCard({ paper, batchLabel, printScale }: FrameCard): Promise<Buffer> {
  checkPaper(paper, printScale);
  const drawing = openDrawing({
    title: "Frame card",
    subject: "A paper measuring frame, to be printed at its real size",
    paper,
    printScale,
  });
  newPage(drawing);
  drawTitle(drawing, batchLabel && canPrint(batchLabel) ? batchLabel : "");
  drawCard(drawing, [middleMm, cardTopMm + card.sideMm / 2]);
  drawBars(drawing);
  instructions(drawing).draw(cardEndMm + 22);
  return closeDrawing(drawing);
}

function drawTitle(drawing: Drawing, batchLabel: string): void {
  tagged(drawing, "H1", () =>
    write(drawing, "Frame card", { xMm: column.leftMm, baselineMm: 10 }, { sizeMm: 9.4, weight: "bold" }),
  );
  const lines = ["print on matt paper, at actual size (100 %)", batchLabel].filter(Boolean);
  tagged(drawing, "P", () =>
    lines.forEach((text, index) => {
      const { style } = shrink(drawing, text, { sizeMm: 3.6, ink: inks.quiet }, 120);
      const baselineMm = 10 - 4.6 * (lines.length - 1 - index);
      write(drawing, text, { xMm: rightMm, baselineMm, align: "right" }, style);
    }),
  );
  rule(drawing, column, 0.9, 0).draw(12.6);
}

/** A bar each way beside the card: what the printer did to it. */
function drawBars(drawing: Drawing): void {
  const lengthMm = 100;
  const uprightX = middleMm + card.sideMm / 2 + 12;
  const besideCard = cardTopMm + (card.sideMm - lengthMm) / 2;
  checkBar(drawing, {
    direction: "across",
    lengthMm,
    xMm: middleMm - lengthMm / 2,
    yMm: cardEndMm + 9,
    label: "under",
  });
  checkBar(drawing, { direction: "upright", lengthMm, xMm: uprightX, yMm: besideCard, label: "right" });
}

function instructions(drawing: Drawing) {
  const steps = [
    "Measure both bars, end to end: across ____________ mm, upright ____________ mm. Give both figures with the photograph. They need not be 100, but they must be known.",
    "Cut out the card and its hole. Leave no line on the card.",
    "Pouch off, skin clean and dry. Lay the card round the stoma, arrow to the head, flat, the stoma free of its edge.",
    "Photograph from straight above, with all eight markers in the picture.",
  ];
  const cautions = [
    "For one person, used once: then throw it away.",
    "Never lay it on open, sore or bleeding skin. Call the nurse instead.",
    "No name on the card: it would be in the photograph. No glossy paper: it shines.",
    "A size from a photograph is for a nurse to accept. Your local protocol and your own clinicians decide.",
  ];
  return stacked([
    heading(drawing, "How to use it", column),
    list(drawing, steps.map(asItem), column, { sizeMm: bodyMm, numbered: true }),
    space(4),
    heading(drawing, "Take care", column),
    list(drawing, cautions.map(asItem), column, { sizeMm: bodyMm, numbered: false }),
  ]);
}

function asItem(text: string): { text: string } {
  return { text };
}
