import type { Block } from "../drawing/block.ts";
import { stacked } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { type Column, heading, paragraph, rule } from "../drawing/paragraphs.ts";
import { inks } from "../drawing/strokes.ts";
import { grouped, tagged } from "../drawing/structure.ts";
import { shrink, smallestMm, type TextStyle, widthMm, write } from "../drawing/text.ts";
import type { ClearanceRow } from "./rows.ts";

const rowMm = 4.7;
const figureMm = 9;
const plain: TextStyle = { sizeMm: 3.4 };
const quiet: TextStyle = { sizeMm: smallestMm, ink: inks.quiet };

/** Distances of every mark from the tightest landmarks, with the limits; what is not kept stands in bold. */
export function clearanceTable(
  drawing: Drawing,
  rows: readonly ClearanceRow[],
  column: Column,
  heightMm: number,
): Block {
  const marks = rows[0]?.mm.length ?? 0;
  const room = Math.max(0, Math.floor((heightMm - 24) / rowMm));
  const shown = rows.slice(0, room);
  return stacked([
    heading(drawing, "Distances, mm", column),
    headRow(drawing, marks, column),
    rule(drawing, column, 0.25, 0.6),
    ...shown.map((row) => tableRow(drawing, row, column)),
    rule(drawing, column, 0.25, 0.6),
    paragraph(drawing, restInWords(rows, shown.length), column, quiet),
  ]);
}

/** Rows that {@link clearanceTable} has room for. */
export function rowsShown(rows: readonly ClearanceRow[], heightMm: number): readonly ClearanceRow[] {
  return rows.slice(0, Math.max(0, Math.floor((heightMm - 24) / rowMm)));
}

function headRow(drawing: Drawing, marks: number, column: Column): Block {
  return {
    heightMm: 4.4,
    draw(topMm) {
      const baselineMm = topMm + 3.4;
      tagged(drawing, "P", () => {
        write(drawing, "from", { xMm: column.leftMm + 5, baselineMm }, quiet);
        figuresIn(column, marks).forEach((xMm, at) => {
          const text = at === marks ? "limit" : `${at + 1}`;
          write(drawing, text, { xMm, baselineMm, align: "right" }, { ...quiet, weight: "bold" });
        });
      });
    },
  };
}

function tableRow(drawing: Drawing, { number, name, limitMm, mm }: ClearanceRow, column: Column): Block {
  return {
    heightMm: rowMm,
    draw(topMm) {
      const baselineMm = topMm + 3.4;
      const places = figuresIn(column, mm.length);
      const nameMm = places[0]! - figureMm - column.leftMm - 4;
      grouped(drawing, "P", () => {
        tagged(drawing, "Span", () =>
          write(
            drawing,
            `${number}`,
            { xMm: column.leftMm + 3.6, baselineMm, align: "right" },
            { ...quiet, weight: "bold" },
          ),
        );
        tagged(drawing, "Span", () => {
          const { lines, style } = shrink(drawing, name, plain, nameMm);
          const text = lines.length > 1 ? fitted(drawing, name, style, nameMm) : name;
          write(drawing, text, { xMm: column.leftMm + 5, baselineMm }, style);
        });
        mm.forEach(({ value, kept }, at) => {
          const style: TextStyle = { ...plain, weight: kept ? "regular" : "bold" };
          const text = kept ? `${Math.round(value)}` : `${Math.round(value)} !`;
          tagged(drawing, "Span", () =>
            write(drawing, text, { xMm: places[at]!, baselineMm, align: "right" }, style),
          );
        });
        tagged(drawing, "Span", () =>
          write(
            drawing,
            `${Math.round(limitMm)}`,
            { xMm: places.at(-1)!, baselineMm, align: "right" },
            quiet,
          ),
        );
      });
    },
  };
}

/** Right ends of the columns of figures: one for each mark, then the limit's. */
function figuresIn({ leftMm, widthMm: wide }: Column, marks: number): number[] {
  const limitMm = leftMm + wide;
  return [...Array.from({ length: marks }, (_, at) => limitMm - 13.6 - (marks - 1 - at) * figureMm), limitMm];
}

function fitted(drawing: Drawing, text: string, style: TextStyle, maxMm: number): string {
  let cut = text;
  while (cut.length > 1 && widthMm(drawing, `${cut}…`, style) > maxMm) cut = cut.slice(0, -1);
  return `${cut.trimEnd()}…`;
}

function restInWords(rows: readonly ClearanceRow[], shown: number): string {
  const rest = rows.slice(shown);
  const broken = rest.filter(({ mm }) => mm.some(({ kept }) => !kept)).length;
  const others =
    rest.length === 0
      ? ""
      : `${rest.length} more ${rest.length === 1 ? "landmark" : "landmarks"}: ${broken === 0 ? "all kept" : `${broken} not kept`}. `;
  return `${others}! = less than the limit. Numbers stand on the map; limits are the clinic’s protocol.`;
}
