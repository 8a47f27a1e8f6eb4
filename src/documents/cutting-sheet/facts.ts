import type { Block } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import type { Column } from "../drawing/paragraphs.ts";
import { box, inks } from "../drawing/strokes.ts";
import { artifact, tagged } from "../drawing/structure.ts";
import { shrink, write } from "../drawing/text.ts";
import { dayInWords, rangeInWords, rangeOfDays } from "../words.ts";
import type { CuttingSheet } from "./input.ts";

interface Fact {
  label: string;
  value: string;
  /** What stands under the value. */
  rests: string;
}

/** Hole across, gap each side and fits until, between two rules: never one measure without the other. */
export function sheetFacts(drawing: Drawing, sheet: CuttingSheet, column: Column): Block {
  const across = rangeInWords(sheet.holeAcrossMm);
  const facts: [Fact, number][] = [
    [
      {
        label: "Hole across",
        value: across,
        rests: across.includes("to") ? "narrowest to widest" : "every way",
      },
      0,
    ],
    [
      {
        label: "Gap each side",
        value: rangeInWords(sheet.gapEachSideMm),
        rests: `${sheet.clearanceMm.toFixed(1)} mm was asked for`,
      },
      0.34,
    ],
    [fitsFact(sheet), 0.6],
  ];
  return {
    heightMm: 17.4,
    draw(topMm) {
      artifact(drawing, () =>
        box(drawing, [column.leftMm, topMm], { widthMm: column.widthMm, heightMm: 0.25 }),
      );
      facts.forEach(([fact, from], index) => {
        const to = facts[index + 1]?.[1] ?? 1;
        const leftMm = column.leftMm + from * column.widthMm;
        drawFact(drawing, fact, { leftMm, widthMm: (to - from) * column.widthMm - 3 }, topMm);
      });
      artifact(drawing, () =>
        box(drawing, [column.leftMm, topMm + 16.9], { widthMm: column.widthMm, heightMm: 0.25 }),
      );
    },
  };
}

function drawFact(
  drawing: Drawing,
  { label, value, rests }: Fact,
  { leftMm, widthMm }: Column,
  topMm: number,
): void {
  const rows = [
    { text: label, style: { sizeMm: 3.6, ink: inks.quiet }, baselineMm: topMm + 4.6 },
    { text: value, style: { sizeMm: 5.6, weight: "bold" }, baselineMm: topMm + 10.5 },
    { text: rests, style: { sizeMm: 3.6, ink: inks.quiet }, baselineMm: topMm + 15 },
  ] as const;
  tagged(drawing, "P", () => {
    for (const { text, style, baselineMm } of rows) {
      const fitted = shrink(drawing, text, style, widthMm);
      write(drawing, text, { xMm: leftMm, baselineMm }, fitted.style);
    }
  });
}

function fitsFact({ fitsUntil, fitsAtLeastUntil, measureAgainOn }: CuttingSheet): Fact {
  const again = measureAgainOn && `measure again by ${dayInWords(measureAgainOn)}`;
  const rests = again ?? "after that, measure before you cut";
  if (fitsUntil) {
    const { day, on } = fitsUntil;
    return {
      label: `Fits until about (80 %: ${rangeOfDays(fitsUntil)})`,
      value: `${dayInWords(on)}, day ${day}`,
      rests,
    };
  }
  if (!fitsAtLeastUntil) {
    return {
      label: "Fits until",
      value: "not known yet",
      rests: again ?? "measure again before each cutting",
    };
  }
  const { day, on } = fitsAtLeastUntil;
  return { label: "Fits (80 %) at least until", value: `${dayInWords(on)}, day ${day}`, rests };
}
