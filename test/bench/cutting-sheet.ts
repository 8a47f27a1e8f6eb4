import PDFDocument from "pdfkit";
import { cuttingSheet } from "../../src/documents/index.ts";
import { oval, type SampleShape, sheetFor, traced } from "../printed/sheet.ts";

type Print = (line: string) => void;

const rounds = 15;
const mostMs = 300;

/** Sheets as they come: one page, one page of a traced outline, a page for each face. */
const shapes: Record<string, SampleShape> = {
  "oval 36 x 25 mm, one page": oval(36, 25, 25),
  "traced outline, one page": traced(),
  "oval 60 x 75 mm, two pages": oval(60, 75, 10),
};

/**
 * Time to make a cutting sheet, from checked input to the bytes of the PDF, against the least a PDF costs here:
 * an empty page by the same library in the same run. They take turns; medians of fifteen. The first sheet of
 * a process, which reads the fonts, is told apart.
 */
export async function benchCuttingSheet(print: Print): Promise<void> {
  const first = await timeMs(() => cuttingSheet(sheetFor(oval(31, 28, 0))));
  print(`first sheet of a process, fonts read: ${first.toFixed(0)} ms`);
  for (const [name, shape] of Object.entries(shapes)) {
    const sheet = sheetFor(shape);
    const [ours, empty]: [number[], number[]] = [[], []];
    for (let round = 0; round < rounds; round++) {
      ours.push(await timeMs(() => cuttingSheet(sheet)));
      empty.push(await timeMs(emptyPage));
    }
    const [oursMs, emptyMs] = [median(ours), median(empty)];
    print(
      `${name}: ${oursMs.toFixed(0)} ms (must be at most ${mostMs}: ${oursMs <= mostMs ? "yes" : "NO"}), ` +
        `empty page by pdfkit ${emptyMs.toFixed(1)} ms, ours/empty ${(oursMs / emptyMs).toFixed(0)}`,
    );
  }
}

function emptyPage(): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    const pdf = new PDFDocument({ size: "A4" });
    const chunks: Buffer[] = [];
    pdf.on("data", (chunk: Buffer) => chunks.push(chunk));
    pdf.on("end", () => resolve(Buffer.concat(chunks)));
    pdf.on("error", reject);
    pdf.end();
  });
}

async function timeMs(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

function median(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
}
