import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { create } from "fontkit";
import { unpackWoff } from "./woff.ts";

export type Weight = "regular" | "bold";

/** Part of a text that one font file can set. */
export interface TextRun {
  /** Key of the font file, see {@link fontFile}. */
  font: string;
  text: string;
}

interface Family {
  packageName: string;
  /** Font files by the characters they hold. */
  subsets: readonly string[];
}

/** In order of preference; a word is set in one family, so that it never mixes two designs. */
const families: readonly Family[] = [
  { packageName: "atkinson-hyperlegible-next", subsets: ["latin", "latin-ext"] },
  {
    packageName: "noto-sans",
    subsets: ["latin", "latin-ext", "vietnamese", "greek", "greek-ext", "cyrillic", "cyrillic-ext"],
  },
];

const weightNumber: Record<Weight, number> = { regular: 400, bold: 700 };
const resolve = createRequire(import.meta.url).resolve;
const graphemes = new Intl.Segmenter("en", { granularity: "grapheme" });
const files = new Map<string, Buffer>();
const characters = new Map<string, ReadonlySet<number>>();

/** The bytes of a font by its key, ready to embed. */
export function fontFile(font: string): Buffer {
  let bytes = files.get(font);
  if (!bytes) {
    const packageName = families.find((family) => font.startsWith(family.packageName))!.packageName;
    bytes = unpackWoff(readFileSync(resolve(`@fontsource/${packageName}/files/${font}-normal.woff`)));
    files.set(font, bytes);
  }
  return bytes;
}

/** One line of text as it can be printed: composed, single spaces, no invisible characters. */
export function plainLine(text: string): string {
  return text
    .normalize("NFC")
    .replace(/\p{Cf}/gu, "")
    .replace(/[\s\p{Cc}]+/gu, " ")
    .trim();
}

/** Splits a line by font file; null when some character is in none of them. */
export function textRuns(text: string, weight: Weight): TextRun[] | null {
  const usual = `atkinson-hyperlegible-next-latin-${weightNumber[weight]}`;
  if (holds(usual, text)) return [{ font: usual, text }];
  const runs: TextRun[] = [];
  for (const word of text.split(/( )/)) {
    const wordRuns = families
      .map((family) => runsInFamily(word, family, weight))
      .find((found) => found !== null);
    if (!wordRuns) return null;
    for (const run of wordRuns) append(runs, run);
  }
  return runs;
}

/** Whether every character of a text can be printed. */
export function canPrint(text: string): boolean {
  return textRuns(plainLine(text), "bold") !== null && textRuns(plainLine(text), "regular") !== null;
}

function runsInFamily(word: string, family: Family, weight: Weight): TextRun[] | null {
  const runs: TextRun[] = [];
  for (const { segment } of graphemes.segment(word)) {
    const font = family.subsets
      .map((subset) => `${family.packageName}-${subset}-${weightNumber[weight]}`)
      .find((key) => holds(key, segment));
    if (!font) return null;
    append(runs, { font, text: segment });
  }
  return runs;
}

function append(runs: TextRun[], run: TextRun): void {
  const last = runs.at(-1);
  if (last?.font === run.font) last.text += run.text;
  else runs.push({ ...run });
}

function holds(font: string, text: string): boolean {
  let held = characters.get(font);
  if (!held) {
    const parsed = create(fontFile(font));
    held = new Set("characterSet" in parsed ? parsed.characterSet : []);
    characters.set(font, held);
  }
  for (const character of text) if (!held.has(character.codePointAt(0)!)) return false;
  return true;
}
