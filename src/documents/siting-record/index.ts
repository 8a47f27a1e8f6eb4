import { prepareSiting } from "../../domain/siting/index.ts";
import { space, stacked } from "../drawing/block.ts";
import { closeDrawing, type Drawing, newPage, openDrawing } from "../drawing/drawing.ts";
import { sheetAreaMm } from "../drawing/paper.ts";
import type { Column } from "../drawing/paragraphs.ts";
import { checkRecord } from "./check.ts";
import { recordHeading } from "./heading.ts";
import type { SitingRecord } from "./input.ts";
import { mapKey } from "./key.ts";
import { bodyMapFigure } from "./map.ts";
import { clearanceRows, markedPlaces } from "./rows.ts";
import { checklist, consentAndSignatures, placesInWords, recordFoot } from "./sections.ts";
import { clearanceTable, rowsShown } from "./table.ts";

export type { SitingMark, SitingRecord } from "./input.ts";

const edgeMm = 2;
const column: Column = { leftMm: edgeMm, widthMm: sheetAreaMm.widthMm - 2 * edgeMm };
const tableWidthMm = 72;
const mapColumn: Column = { leftMm: edgeMm, widthMm: column.widthMm - tableWidthMm - 5 };
const tableColumn: Column = { leftMm: edgeMm + mapColumn.widthMm + 5, widthMm: tableWidthMm };

/**
 * The siting record as a PDF of one page for the surgeon: the body map with region and marks, the places in words and
 * figures, what was kept and what was not, postures, consent and lines to sign.
 *
 * @throws InputError without two identifiers or a mark, or where landmarks enclose no area
 */
export async function sitingRecord(record: SitingRecord): Promise<Buffer> {
  checkRecord(record);
  const drawing = openDrawing({
    title: `Siting record, ${record.person.name}`,
    subject: "Where a stoma may be placed: for the surgeon",
    paper: record.paper,
    printScale: record.printScale,
    madeOn: record.madeOn,
  });
  newPage(drawing);
  drawPage(drawing, record);
  return closeDrawing(drawing);
}

/** The map takes what the words leave. */
function drawPage(drawing: Drawing, record: SitingRecord): void {
  const siting = prepareSiting(record.question, record.protocol);
  const marks = markedPlaces(siting, record.marks);
  const rows = clearanceRows(siting, marks);
  const head = recordHeading(drawing, record, column);
  const low = stacked([
    space(1.6),
    placesInWords(drawing, marks, column),
    space(1.4),
    checklist(drawing, record, column),
    space(1.4),
    consentAndSignatures(drawing, record, column),
    space(1),
    recordFoot(drawing, record, column),
  ]);
  const roomMm = sheetAreaMm.heightMm - 2 * edgeMm - head.heightMm - low.heightMm;
  const map = { siting, outline: record.outline, marks, numbered: rowsShown(rows, roomMm) };
  head.draw(edgeMm);
  bodyMapFigure(drawing, map, mapColumn, roomMm).draw(edgeMm + head.heightMm);
  const table = clearanceTable(drawing, rows, tableColumn, roomMm);
  table.draw(edgeMm + head.heightMm);
  const key = mapKey(drawing, siting, tableColumn);
  if (table.heightMm + key.heightMm <= roomMm) key.draw(edgeMm + head.heightMm + roomMm - key.heightMm);
  low.draw(edgeMm + head.heightMm + roomMm);
}
