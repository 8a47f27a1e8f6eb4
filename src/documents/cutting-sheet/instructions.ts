import type { Block } from "../drawing/block.ts";
import { stacked } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { type Column, heading, list } from "../drawing/paragraphs.ts";
import { bodyMm } from "../drawing/text.ts";
import { rangeInWords } from "../words.ts";
import type { CuttingSheet } from "./input.ts";

/** The three steps from paper to barrier. `shape` says which face to cut out. */
export function steps(drawing: Drawing, sheet: CuttingSheet, shape: string, column: Column): Block {
  const held = meetsStoma(sheet)
    ? "it meets the stoma all round, pressing nowhere"
    : `${rangeInWords(sheet.gapEachSideMm)} all round, touching nowhere`;
  const texts = [
    `Cut out ${shape} along the inner edge of the heavy line: leave no line on it.`,
    "Lay it on the liner, print up, head up. Draw round it. Cut the barrier just inside your line.",
    `Feel the edge: nothing sharp. Hold it near the stoma: ${held}.`,
  ];
  return stacked([
    heading(drawing, "Then", column),
    list(
      drawing,
      texts.map((text) => ({ text })),
      column,
      { sizeMm: bodyMm, numbered: true },
    ),
  ]);
}

/** What to mind, and when to stop and call. */
export function cautions(drawing: Drawing, sheet: CuttingSheet, column: Column): Block {
  const { barrierMarginMm, maxGapMm, unplannedCount, unplannedWindowDays } = sheet.protocol;
  const items = [
    { text: ownerInWords(sheet) },
    {
      text: `Keep ${barrierMarginMm} mm of barrier outside the hole: the dashed ring. Mind any limit printed on it.`,
    },
    {
      text: `If it ${meetsStoma(sheet) ? "presses on" : "touches"} the stoma, or over ${maxGapMm} mm of skin shows anywhere: stop, measure again.`,
    },
    {
      text: `Leak, itch or burning: change now. ${unplannedCount} early changes in ${unplannedWindowDays} days: tell your nurse that day.`,
    },
    {
      text: "Stoma dark, purple, black or very pale, or bleeding that does not stop: call now.",
      weight: "bold" as const,
    },
  ];
  return stacked([
    heading(drawing, "Take care", column),
    list(drawing, items, column, { sizeMm: bodyMm, numbered: false }),
  ]);
}

/** Whether the gap is none as printed: then the barrier may meet the stoma, but not press on it. */
function meetsStoma({ gapEachSideMm }: CuttingSheet): boolean {
  return gapEachSideMm.min < 0.05;
}

function ownerInWords({ replaces }: CuttingSheet): string {
  const only = "For this person and stoma only.";
  if (!replaces) return `${only} When a new sheet comes, throw this one away.`;
  return `${only} Throw away sheet ${replaces.sheetNumber} and all older ones.`;
}
