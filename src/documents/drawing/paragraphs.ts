import { type Block, stacked } from "./block.ts";
import type { Drawing } from "./drawing.ts";
import { box } from "./strokes.ts";
import { artifact, grouped, tagged } from "./structure.ts";
import { type TextPlace, type TextStyle, wrap, write } from "./text.ts";

/** Where a column of text stands. */
export interface Column {
  leftMm: number;
  widthMm: number;
}

/** Line to line, as a multiple of the size. */
const leading = 1.3;

/** A second-level heading on one line. */
export function heading(drawing: Drawing, text: string, { leftMm }: Column): Block {
  return {
    heightMm: 6.6,
    draw(topMm) {
      tagged(drawing, "H2", () =>
        write(drawing, text, { xMm: leftMm, baselineMm: topMm + 4.6 }, { sizeMm: 5.4, weight: "bold" }),
      );
    },
  };
}

/** Running text, broken to the column. */
export function paragraph(drawing: Drawing, text: string, column: Column, style: TextStyle): Block {
  const lines = wrap(drawing, text, style, column.widthMm);
  return {
    heightMm: linesHeightMm(lines, style),
    draw: (topMm) => tagged(drawing, "P", () => writeLines(drawing, lines, column.leftMm, topMm, style)),
  };
}

/** A list: numbered, or with a dot before each item. */
export function list(
  drawing: Drawing,
  items: readonly { text: string; weight?: TextStyle["weight"] }[],
  column: Column,
  { sizeMm, numbered }: { sizeMm: number; numbered: boolean },
): Block {
  const indentMm = 5.4;
  const gapMm = 0.5;
  const body = { leftMm: column.leftMm + indentMm, widthMm: column.widthMm - indentMm };
  const entries = items.map(({ text, weight }, index): Block => {
    const style: TextStyle = { sizeMm, weight: weight ?? "regular" };
    const lines = wrap(drawing, text, style, body.widthMm);
    return {
      heightMm: linesHeightMm(lines, style) + gapMm,
      draw(topMm) {
        grouped(drawing, "LI", () => {
          const place: TextPlace = { xMm: column.leftMm, baselineMm: topMm + sizeMm };
          if (numbered) {
            tagged(drawing, "Lbl", () => write(drawing, `${index + 1}`, place, { sizeMm, weight: "bold" }));
          } else {
            artifact(drawing, () =>
              box(drawing, [column.leftMm + 0.6, topMm + sizeMm * 0.56], { widthMm: 1.4, heightMm: 1.4 }),
            );
          }
          tagged(drawing, "LBody", () => writeLines(drawing, lines, body.leftMm, topMm, style));
        });
      },
    };
  });
  const all = stacked(entries);
  return { heightMm: all.heightMm, draw: (topMm) => grouped(drawing, "L", () => all.draw(topMm)) };
}

/** A rule across the column with space under it. */
export function rule(drawing: Drawing, column: Column, widthMm: number, afterMm: number): Block {
  return {
    heightMm: widthMm + afterMm,
    draw: (topMm) =>
      artifact(drawing, () =>
        box(drawing, [column.leftMm, topMm], { widthMm: column.widthMm, heightMm: widthMm }),
      ),
  };
}

function linesHeightMm(lines: readonly string[], { sizeMm }: TextStyle): number {
  return lines.length * sizeMm * leading;
}

function writeLines(
  drawing: Drawing,
  lines: readonly string[],
  leftMm: number,
  topMm: number,
  style: TextStyle,
): void {
  lines.forEach((line, index) => {
    const baselineMm = topMm + style.sizeMm * (1 + index * leading);
    write(drawing, line, { xMm: leftMm, baselineMm }, style);
  });
}
