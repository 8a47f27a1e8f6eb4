import { type Fault, InputError } from "../../domain/fault.ts";

/** The one place where millimetres become PDF points. @source PDF 32000-1: 72 points an inch; 25.4 mm an inch */
export const pointsPerMm = 72 / 25.4;

/** Paper sizes in millimetres. @source ISO 216 (A4), ANSI/ASME Y14.1 (Letter) */
export const paperSizesMm = {
  A4: { widthMm: 210, heightMm: 297 },
  Letter: { widthMm: 215.9, heightMm: 279.4 },
} as const;

export type Paper = keyof typeof paperSizesMm;

/** Everything printed stays inside this area in the middle of the paper, so that either paper holds it. */
export const sheetAreaMm = { widthMm: 190, heightMm: 254 } as const;

/**
 * What a printer does to lengths, measured over nominal: { x: 0.97, y: 1 } prints a 100 mm bar 97 mm across
 * and 100 mm upright.
 */
export interface PrintScale {
  x: number;
  y: number;
}

/**
 * Further off than this is a wrong reading or the wrong paper, not a printer's scale: A4 fitted onto Letter,
 * the worst of the usual slips, prints at 0.9407. At 0.92 the corrected area still fits on either paper.
 */
export const printScaleLimits = { least: 0.92, most: 1.08 } as const;

/** The scale at which "fit to page" prints one paper on another. */
export function fitToPageScale(from: Paper, onto: Paper): number {
  const [page, sheet] = [paperSizesMm[from], paperSizesMm[onto]];
  return Math.min(sheet.widthMm / page.widthMm, sheet.heightMm / page.heightMm);
}

/** What lengths are multiplied by, each way, so that they come out true on this printer. */
export function printCorrection(scale: PrintScale = { x: 1, y: 1 }): PrintScale {
  return { x: 1 / scale.x, y: 1 / scale.y };
}

/** Refuses a paper that is not known and a print scale that no ruler could have read. @throws InputError */
export function checkPaper(paper: Paper, scale: PrintScale | undefined): void {
  const faults: Fault[] = [];
  if (!Object.hasOwn(paperSizesMm, paper)) {
    faults.push({ path: "paper", problem: "is not a known paper", got: paper, expected: '"A4" or "Letter"' });
  }
  const { least, most } = printScaleLimits;
  for (const axis of ["x", "y"] as const) {
    const got = scale?.[axis] ?? 1;
    if (got >= least && got <= most) continue;
    faults.push({
      path: `printScale.${axis}`,
      problem: "is not the scale of a printer: measure the 100 mm bar again and print at actual size",
      got,
      expected: `measured over nominal, ${least} to ${most}`,
    });
  }
  if (faults.length > 0) throw new InputError(faults);
}
