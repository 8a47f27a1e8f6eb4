import qrcode from "qrcode-generator";
import type { Point } from "../../domain/outline/index.ts";
import { space, stacked } from "../drawing/block.ts";
import { closeDrawing, type Drawing, newPage, openDrawing } from "../drawing/drawing.ts";
import { checkPaper, type Paper, sheetAreaMm } from "../drawing/paper.ts";
import { type Column, heading, list, paragraph, rule } from "../drawing/paragraphs.ts";
import { box } from "../drawing/strokes.ts";
import { figure, tagged } from "../drawing/structure.ts";
import { bodyMm, write } from "../drawing/text.ts";
import { plainDate } from "../words.ts";

export interface RecoveryKeyPage {
  paper: Paper;
  /** The key in groups, as a person copies it. */
  groups: readonly string[];
  recordId: string;
  /** YYYY-MM-DD. */
  madeOn: string;
}

const column: Column = { leftMm: 2, widthMm: sheetAreaMm.widthMm - 4 };
const groupsALine = 4;
const keySizeMm = 8;
const squareMm = 62;
/** Empty modules round the square. @source ISO/IEC 18004: four */
const quietModules = 4;

/**
 * The recovery key as one page to print and lock away: the key in groups to type from, as a QR code to scan, and what
 * it is for.
 * @throws InputError for a paper that is not known
 */
export async function recoveryKeyPage({ paper, groups, recordId, madeOn }: RecoveryKeyPage): Promise<Buffer> {
  checkPaper(paper, undefined);
  const drawing = openDrawing({
    title: "Recovery key",
    subject: "The key that opens backups and photographs when the key file is lost",
    paper,
    madeOn,
  });
  newPage(drawing);
  tagged(drawing, "H1", () =>
    write(drawing, "Recovery key", { xMm: column.leftMm, baselineMm: 10 }, { sizeMm: 9.4, weight: "bold" }),
  );
  rule(drawing, column, 0.9, 0).draw(12.6);
  paragraph(drawing, `Record ${recordId}, key made on ${plainDate(madeOn)}`, column, { sizeMm: bodyMm }).draw(
    18,
  );
  const keyEndMm = drawKey(drawing, groups, 40);
  drawSquare(drawing, groups.join(""), [column.leftMm, keyEndMm + 6]);
  words(drawing).draw(keyEndMm + squareMm + 14);
  return closeDrawing(drawing);
}

/** The beginning that every key has on a line of its own. @returns where the key ends */
function drawKey(drawing: Drawing, [beginning = "", ...groups]: readonly string[], topMm: number): number {
  const lines = Array.from({ length: Math.ceil(groups.length / groupsALine) }, (_, line) =>
    groups.slice(line * groupsALine, (line + 1) * groupsALine).join(" "),
  );
  const baselineOf = (line: number) => topMm + line * keySizeMm * 1.5;
  tagged(drawing, "P", () =>
    [beginning, ...lines].forEach((line, index) => {
      const place = { xMm: column.leftMm, baselineMm: baselineOf(index) };
      write(drawing, line, place, { sizeMm: keySizeMm, weight: "bold" });
    }),
  );
  return baselineOf(lines.length);
}

/** The key as a QR code of the letters themselves. @source ISO/IEC 18004, error correction level M */
function drawSquare(drawing: Drawing, key: string, [leftMm, topMm]: Point): void {
  const code = qrcode(0, "M");
  code.addData(key, "Alphanumeric");
  code.make();
  const modules = code.getModuleCount();
  const moduleMm = squareMm / (modules + 2 * quietModules);
  figure(drawing, "The key as a QR code", () => {
    for (let row = 0; row < modules; row += 1) {
      for (let at = 0; at < modules; at += 1) {
        if (!code.isDark(row, at)) continue;
        const corner: Point = [
          leftMm + (at + quietModules) * moduleMm,
          topMm + (row + quietModules) * moduleMm,
        ];
        // A hair wider than a module, so that no viewer leaves a white line between two.
        box(drawing, corner, { widthMm: moduleMm * 1.02, heightMm: moduleMm * 1.02 }, "#000000");
      }
    }
  });
}

function words(drawing: Drawing) {
  const uses = [
    "It opens every backup and every photograph of this record, alone: without the key file, without a password.",
    "It is needed when the machine is gone, or its key file is. Then: roundel restore BACKUP --data FOLDER --recovery-key -",
    "Prove once a year that it still does: roundel keys prove --data FOLDER",
  ];
  const cautions = [
    "Whoever has this page and a backup can read the whole record. Lock it away, as you lock away the record.",
    "Keep it apart from the machine and from the backups: one fire, one theft must not take both.",
    "It is kept nowhere else and cannot be shown again. If it is lost: roundel keys recovery --replace",
    "Delete the file that this page was printed from, and empty the printer's memory where it has one.",
  ];
  const items = (texts: readonly string[]) => texts.map((text) => ({ text }));
  return stacked([
    heading(drawing, "What it is for", column),
    list(drawing, items(uses), column, { sizeMm: bodyMm, numbered: false }),
    space(4),
    heading(drawing, "Take care", column),
    list(drawing, items(cautions), column, { sizeMm: bodyMm, numbered: false }),
  ]);
}
