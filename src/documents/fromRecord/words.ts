import type { Note } from "../../domain/note.ts";
import type { BodyOf } from "../../record/entry/index.ts";
import type { Reading } from "../../record/story/index.ts";
import type { CuttingSheet } from "../cutting-sheet/index.ts";
import { dayInWords, plainDate, rangeInWords, rangeOfDays } from "../words.ts";

const constructions: Record<BodyOf<"stoma">["construction"], string> = {
  end: "end",
  loop: "loop",
  doubleBarrel: "double-barrel",
  conduit: "conduit",
  other: "",
};

const types: Record<BodyOf<"stoma">["type"], string> = {
  ileostomy: "ileostomy",
  colostomy: "colostomy",
  urostomy: "urostomy",
  fistula: "fistula",
  other: "stoma",
};

const sides = { right: "right side", left: "left side", middle: "in the middle" };

const methods: Record<Reading["method"], string> = {
  guide: "a guide reading",
  tracing: "a tracing",
  typed: "a typed size",
  photo: "a photograph",
};

/** Which stoma, as "Loop ileostomy, right side, upper". */
export function stomaInWords({ construction, type, side, label }: BodyOf<"stoma">): string {
  const name = `${constructions[construction]} ${types[type]}`.trim();
  const capital = name.charAt(0).toUpperCase() + name.slice(1);
  return [capital, side && sides[side], label].filter(Boolean).join(", ");
}

/** How and when the size was got, as "a tracing of 3 November 2026". */
export function methodInWords({ method, on }: Reading): string {
  return `${methods[method]} of ${plainDate(on)}`;
}

/** As many sentences, and characters of each, as an `advised` entry keeps. */
const [mostWords, mostCharacters] = [40, 400];

function fitsWords({ fitsUntil, fitsAtLeastUntil }: CuttingSheet): string {
  if (fitsUntil) {
    const { on, day } = fitsUntil;
    return `Fits until about ${dayInWords(on)}, day ${day} (80 %: ${rangeOfDays(fitsUntil)}).`;
  }
  if (!fitsAtLeastUntil) return "Fits until: not known yet.";
  return `Fits (80 %) at least until ${dayInWords(fitsAtLeastUntil.on)}, day ${fitsAtLeastUntil.day}.`;
}

/** What was shown with a sheet: its figures as sentences, then what the computations had to say. */
export function wordsShown(sheet: CuttingSheet, notes: readonly Note[]): string[] {
  const { measureAgainOn, replaces } = sheet;
  const said = [
    `Cut from ${sheet.method}.`,
    `Hole across ${rangeInWords(sheet.holeAcrossMm)}; gap each side ${rangeInWords(sheet.gapEachSideMm)}, ${sheet.clearanceMm.toFixed(1)} mm was asked for.`,
    fitsWords(sheet),
    measureAgainOn && `Measure again by ${dayInWords(measureAgainOn)}.`,
    replaces && `Makes sheet ${replaces.sheetNumber} void.`,
    ...notes.map(({ text }) => text),
  ];
  return said
    .filter((text) => typeof text === "string")
    .slice(0, mostWords)
    .map((text) => (text.length > mostCharacters ? `${text.slice(0, mostCharacters - 1)}…` : text));
}
