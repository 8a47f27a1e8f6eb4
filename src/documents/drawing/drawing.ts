import PDFDocument from "pdfkit";
import {
  type Paper,
  type PrintScale,
  paperSizesMm,
  pointsPerMm,
  printCorrection,
  sheetAreaMm,
} from "./paper.ts";

/**
 * A document drawn in millimetres: origin at the top left of the 190 × 254 mm sheet area, x to the right, y down.
 * Pieces draw with these units only; the page's own transform turns them into points and corrects the printer.
 */
export interface Drawing {
  pdf: PDFKit.PDFDocument;
  paper: Paper;
  correction: PrintScale;
  /** Widths of texts already measured, as multiples of their size; a layout measures the same words often. */
  widths: Map<string, number>;
  /** The tagged element that pieces are added to. */
  parent: PDFKit.PDFStructureElement;
}

export interface DrawingOptions {
  title: string;
  subject: string;
  paper: Paper;
  printScale?: PrintScale | undefined;
  /** The document's own date, YYYY-MM-DD: the same input gives the same bytes. Left out: the moment of drawing. */
  madeOn?: string;
}

/** Opens a tagged document in English without a page; call {@link newPage} first. */
export function openDrawing({ title, subject, paper, printScale, madeOn }: DrawingOptions): Drawing {
  const pdf = new PDFDocument({
    autoFirstPage: false,
    // no standard font: all text goes through the typefaces of this folder
    font: null as unknown as string,
    pdfVersion: "1.7",
    tagged: true,
    displayTitle: true,
    lang: "en",
    info: {
      Title: title,
      Subject: subject,
      ...(madeOn && { CreationDate: new Date(`${madeOn}T00:00:00Z`) }),
    },
  });
  const parent = pdf.struct("Document");
  pdf.addStructure(parent);
  return { pdf, paper, correction: printCorrection(printScale), widths: new Map(), parent };
}

/** Starts a page; the sheet area is centred on the paper. */
export function newPage({ pdf, paper, correction }: Drawing): void {
  const { widthMm, heightMm } = paperSizesMm[paper];
  pdf.addPage({ size: [widthMm * pointsPerMm, heightMm * pointsPerMm], margin: 0 });
  const [perX, perY] = [pointsPerMm * correction.x, pointsPerMm * correction.y];
  const left = (widthMm * pointsPerMm - sheetAreaMm.widthMm * perX) / 2;
  const top = (heightMm * pointsPerMm - sheetAreaMm.heightMm * perY) / 2;
  pdf.transform(perX, 0, 0, perY, left, top);
}

/** Ends the document and collects its bytes. */
export function closeDrawing({ pdf, parent }: Drawing): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    const chunks: Buffer[] = [];
    pdf.on("data", (chunk: Buffer) => chunks.push(chunk));
    pdf.on("end", () => resolve(Buffer.concat(chunks)));
    pdf.on("error", reject);
    parent.end();
    pdf.end();
  });
}
