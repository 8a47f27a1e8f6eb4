import type { Drawing } from "./drawing.ts";
import { inks } from "./strokes.ts";
import { fontFile, plainLine, type TextRun, textRuns, type Weight } from "./typeface.ts";

/** Nothing is printed smaller than this; running text is `bodyMm`. Sizes are the em, in millimetres. */
export const smallestMm = 3.2;
export const bodyMm = 4;

export interface TextStyle {
  sizeMm: number;
  weight?: Weight;
  ink?: string;
}

export interface TextPlace {
  xMm: number;
  baselineMm: number;
  align?: "left" | "centre" | "right";
}

/** Figures of one width, so that they stand in columns. */
const features = ["tnum"] as unknown as PDFKit.Mixins.OpenTypeFeatures[];

/** Sets one line. @throws RangeError when the size is under 3.2 mm or a character is in no typeface */
export function write(drawing: Drawing, text: string, place: TextPlace, style: TextStyle): void {
  if (style.sizeMm < smallestMm) throw new RangeError(`text of ${style.sizeMm} mm is too small to read`);
  const shift = { left: 0, centre: 0.5, right: 1 }[place.align ?? "left"];
  let x = place.xMm - (shift && shift * widthMm(drawing, text, style));
  for (const run of runsOf(text, style)) {
    setFont(drawing, run, style.sizeMm);
    drawing.pdf.fillColor(style.ink ?? inks.ink);
    drawing.pdf.text(run.text, x, place.baselineMm, { lineBreak: false, baseline: "alphabetic", features });
    x += runWidthEm(drawing, run) * style.sizeMm;
  }
}

/** Width of one line in millimetres. */
export function widthMm(drawing: Drawing, text: string, style: TextStyle): number {
  return runsOf(text, style).reduce((width, run) => width + runWidthEm(drawing, run) * style.sizeMm, 0);
}

function runWidthEm(drawing: Drawing, run: TextRun): number {
  const key = `${run.font} ${run.text}`;
  let width = drawing.widths.get(key);
  if (width === undefined) {
    setFont(drawing, run, 1);
    width = drawing.pdf.widthOfString(run.text, { features });
    drawing.widths.set(key, width);
  }
  return width;
}

/** Breaks a text at spaces so that each line fits; a word too long for a line is broken anywhere. */
export function wrap(drawing: Drawing, text: string, style: TextStyle, maxWidthMm: number): string[] {
  const width = (part: string) => widthMm(drawing, part, style);
  const spaceMm = width("| |") - width("||");
  const lines: string[] = [];
  let line = "";
  let lineMm = 0;
  for (const word of wordsThatFit(plainLine(text), (part) => width(part) <= maxWidthMm)) {
    const wordMm = width(word);
    if (line && lineMm + spaceMm + wordMm <= maxWidthMm) {
      line += ` ${word}`;
      lineMm += spaceMm + wordMm;
    } else {
      if (line) lines.push(line);
      [line, lineMm] = [word, wordMm];
    }
  }
  return [...lines, line];
}

/** The largest size, from the style's own down to 3.2 mm, at which the text takes no more lines than asked. */
export function shrink(
  drawing: Drawing,
  text: string,
  style: TextStyle,
  maxWidthMm: number,
  maxLines = 1,
): { style: TextStyle; lines: string[] } {
  const stepMm = 0.4;
  for (let sizeMm = style.sizeMm; ; sizeMm = Math.max(smallestMm, sizeMm - stepMm)) {
    const smaller = { ...style, sizeMm };
    const lines = wrap(drawing, text, smaller, maxWidthMm);
    if (lines.length <= maxLines || sizeMm === smallestMm) return { style: smaller, lines };
  }
}

function runsOf(text: string, { weight = "regular" }: TextStyle): TextRun[] {
  const runs = textRuns(plainLine(text), weight);
  if (!runs) throw new RangeError(`no typeface holds every character of "${text}"`);
  return runs;
}

function setFont({ pdf }: Drawing, run: TextRun, sizeMm: number): void {
  pdf.registerFont(run.font, fontFile(run.font));
  pdf.font(run.font).fontSize(sizeMm);
}

function wordsThatFit(text: string, fits: (part: string) => boolean): string[] {
  return text.split(" ").flatMap((word) => {
    const parts: string[] = [];
    let rest = word;
    while (!fits(rest)) {
      const head = headThatFits(rest, fits);
      parts.push(head);
      rest = rest.slice(head.length);
    }
    return [...parts, rest];
  });
}

function headThatFits(word: string, fits: (part: string) => boolean): string {
  const letters = [...word];
  let count = 1;
  while (count < letters.length && fits(letters.slice(0, count + 1).join(""))) count++;
  return letters.slice(0, count).join("");
}
