import { refuse } from "../../domain/fault.ts";
import { dimensionsOf } from "../../domain/outline/index.ts";
import { type Block, space, stacked } from "../drawing/block.ts";
import { type Drawing, newPage } from "../drawing/drawing.ts";
import { sheetAreaMm } from "../drawing/paper.ts";
import { type Column, rule } from "../drawing/paragraphs.ts";
import { box, inks } from "../drawing/strokes.ts";
import { artifact } from "../drawing/structure.ts";
import { drawUprightBars, uprightBarsMm } from "./checks.ts";
import { drawFace, faceHeightMm, facePlacing, faceWidthMm, sideLabelsEndMm } from "./draw-face.ts";
import type { Face } from "./face.ts";
import { sheetFacts } from "./facts.ts";
import { sheetFoot } from "./foot.ts";
import { sheetHeading } from "./heading.ts";
import type { CuttingSheet } from "./input.ts";
import { keyRow, keyStack } from "./key.ts";

/** 2 mm stay clear of the edge of the sheet area. */
const edgeMm = 2;
const column: Column = { leftMm: edgeMm, widthMm: sheetAreaMm.widthMm - 2 * edgeMm };
const bottomMm = sheetAreaMm.heightMm - edgeMm;

/** Room to the left of the upright bars, which stand at the right edge from the foot upward. */
export const besideBars: Column = { leftMm: edgeMm, widthMm: column.widthMm - uprightBarsMm.width };

/** What a page shows: one face or two, and the sections under them, at most as wide as {@link besideBars}. */
export interface PageContent {
  faces: readonly Face[];
  sections: readonly Block[];
  /** "page 1 of 2", where there are two. */
  number?: string;
}

/** A page laid out but not drawn. */
export interface SheetPage {
  faces: readonly Face[];
  facesColumn: Column;
  facesTopMm: number;
  /** Room for the faces under the head. */
  roomMm: number;
  head: Block;
  /** Beside a face that stands alone; two have it under them. */
  key: Block | null;
  low: Block;
  foot: Block;
  barsTopMm: number;
}

/** Lays out a page. */
export function layOutPage(drawing: Drawing, sheet: CuttingSheet, content: PageContent): SheetPage {
  const { faces, sections, number } = content;
  const alone = faces.length === 1;
  const head = stacked([sheetHeading(drawing, sheet, column, number), sheetFacts(drawing, sheet, column)]);
  const foot = sheetFoot(drawing, sheet, column);
  const key = alone
    ? keyStack(drawing, sheet, faces[0]!, besideBars)
    : keyRow(drawing, sheet, faces[0]!, besideBars);
  const divider = stacked([...(alone ? [] : [key]), rule(drawing, besideBars, 0.25, 1)]);
  const facesMm = Math.max(...faces.map(faceHeightMm));
  const underHeadMm = bottomMm - edgeMm - head.heightMm - foot.heightMm;
  const low = stacked([divider, aired(sections, underHeadMm - facesMm - divider.heightMm)]);
  const roomMm = underHeadMm - low.heightMm;
  const barsTopMm = bottomMm - foot.heightMm - uprightBarsMm.height;
  const middleTopMm = edgeMm + head.heightMm + (roomMm - facesMm) / 2;
  // of two faces the right-hand one reaches over the bars: its LEFT must end above them
  const labelsEndMm = Math.max(...faces.map(sideLabelsEndMm));
  return {
    faces,
    facesColumn: alone ? besideBars : column,
    facesTopMm: alone ? middleTopMm : Math.min(middleTopMm, barsTopMm - labelsEndMm),
    roomMm,
    head,
    key: alone ? key : null,
    low,
    foot,
    barsTopMm,
  };
}

/** Sections with air between them where the page has some to spare. */
function aired(sections: readonly Block[], heightMm: number): Block {
  const mostAirMm = 4;
  const spareMm = heightMm - stacked(sections).heightMm;
  const airMm = Math.min(mostAirMm, Math.max(0, spareMm / (sections.length + 1)));
  return stacked(sections.flatMap((section) => [section, space(airMm)]));
}

/** Whether the faces stand on the page at their real size. */
export function holdsFaces(page: SheetPage): boolean {
  const { faces, facesColumn, roomMm, facesTopMm, head } = page;
  const wideMm = facesColumn.widthMm / faces.length;
  return (
    facesTopMm >= edgeMm + head.heightMm &&
    faces.every((face) => faceWidthMm(face) <= wideMm && faceHeightMm(face) <= roomMm) &&
    isClearOfBars(page)
  );
}

/** Whether the ring of the last face, which may reach over the bars, leaves them free. */
function isClearOfBars({ faces, facesColumn, facesTopMm, barsTopMm }: SheetPage): boolean {
  const barsLeftMm = besideBars.leftMm + besideBars.widthMm;
  const middleMm = facesColumn.leftMm + facesColumn.widthMm * (1 - 0.5 / faces.length);
  const place = facePlacing(faces.at(-1)!, middleMm, facesTopMm);
  return faces
    .at(-1)!
    .ring.map(place)
    .every(([x, y]) => x < barsLeftMm || y < barsTopMm);
}

/** Refuses a hole that a page of its own does not hold at its real size. @throws InputError */
export function refuseTooLarge({ paper }: CuttingSheet, { faces, roomMm, facesColumn }: SheetPage): never {
  const face = faces[0]!;
  const { widthMm, lengthMm } = dimensionsOf(face.scissorPath);
  const mostAcross = facesColumn.widthMm - faceWidthMm(face) + widthMm;
  const mostAlong = roomMm - faceHeightMm(face) + lengthMm;
  refuse(
    "scissorPath",
    `is too large for a sheet on ${paper} paper, and a cutting sheet is never scaled down`,
    `${widthMm.toFixed(1)} mm across, ${lengthMm.toFixed(1)} mm head to foot`,
    `at most ${mostAcross.toFixed(1)} mm across, ${mostAlong.toFixed(1)} mm head to foot`,
  );
}

/** Draws a page from head to foot. */
export function drawPage(drawing: Drawing, sheet: CuttingSheet, page: SheetPage): void {
  const { faces, facesColumn, roomMm, facesTopMm, head, key, low, foot, barsTopMm } = page;
  newPage(drawing);
  head.draw(edgeMm);
  const wideMm = facesColumn.widthMm / faces.length;
  faces.forEach((face, index) => {
    const leftMm = facesColumn.leftMm + index * wideMm;
    if (index > 0) divide(drawing, leftMm, facesTopMm, Math.max(...faces.map(faceHeightMm)));
    drawFace(drawing, face, sheet, leftMm + wideMm / 2, facesTopMm);
  });
  key?.draw(facesTopMm + 2);
  low.draw(edgeMm + head.heightMm + roomMm);
  drawUprightBars(drawing, column.leftMm + column.widthMm, barsTopMm);
  foot.draw(bottomMm - foot.heightMm);
}

/** A thin line between two faces. */
function divide(drawing: Drawing, xMm: number, topMm: number, heightMm: number): void {
  const line = { widthMm: 0.25, heightMm: heightMm - 3 };
  artifact(drawing, () => box(drawing, [xMm - 0.125, topMm + 2], line, inks.quiet));
}
