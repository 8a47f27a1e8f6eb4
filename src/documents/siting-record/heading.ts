import { type Block, space, stacked } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { type Column, paragraph, rule } from "../drawing/paragraphs.ts";
import { box, inks } from "../drawing/strokes.ts";
import { tagged } from "../drawing/structure.ts";
import { shrink, type TextStyle, widthMm, write } from "../drawing/text.ts";
import { dayInWords, plainDate } from "../words.ts";
import type { SitingRecord } from "./input.ts";
import { plannedInWords } from "./words.ts";

/** Who, what is planned, when and by whom. */
export function recordHeading(drawing: Drawing, record: SitingRecord, column: Column): Block {
  return stacked([
    titleRow(drawing, record, column),
    rule(drawing, column, 0.9, 1.4),
    personRow(drawing, record, column),
    paragraph(drawing, plannedInWords(record), column, { sizeMm: 4, weight: "bold" }),
    paragraph(drawing, `Marked ${dayInWords(record.madeOn)}, by ${record.by}`, column, {
      sizeMm: 3.6,
      ink: inks.quiet,
    }),
    space(1),
  ]);
}

function titleRow(drawing: Drawing, { clinic, demo }: SitingRecord, column: Column): Block {
  const rightMm = column.leftMm + column.widthMm;
  const title: TextStyle = { sizeMm: 8.4, weight: "bold" };
  const tag = "DEMO, invented person";
  return {
    heightMm: 9.6,
    draw(topMm) {
      const baselineMm = topMm + 7;
      tagged(drawing, "H1", () => write(drawing, "Siting record", { xMm: column.leftMm, baselineMm }, title));
      const besideMm = column.widthMm - widthMm(drawing, "Siting record", title) - 8;
      tagged(drawing, "P", () => {
        const { lines, style } = shrink(drawing, clinic.name, { sizeMm: 3.6, ink: inks.quiet }, besideMm, 1);
        write(drawing, lines[0]!, { xMm: rightMm, baselineMm: topMm + 2.6, align: "right" }, style);
      });
      if (demo) tagged(drawing, "P", () => drawTag(drawing, tag, rightMm, baselineMm));
    },
  };
}

function drawTag(drawing: Drawing, text: string, rightMm: number, baselineMm: number): void {
  const style: TextStyle = { sizeMm: 3.4, weight: "bold", ink: inks.paper };
  const wide = widthMm(drawing, text, style) + 3;
  box(drawing, [rightMm - wide, baselineMm - 3], { widthMm: wide, heightMm: 4.4 });
  write(drawing, text, { xMm: rightMm - wide / 2, baselineMm: baselineMm + 0.2, align: "centre" }, style);
}

/** The name on the left, the other identifiers on the right. */
function personRow(drawing: Drawing, { person }: SitingRecord, column: Column): Block {
  const rightMm = column.leftMm + column.widthMm;
  const identifiers = [
    person.birthDate && `Born ${plainDate(person.birthDate)}`,
    person.identifier && `No. ${person.identifier}`,
  ];
  const right = identifiers.filter(Boolean).join(" · ");
  const beside = shrink(drawing, right, { sizeMm: 4.2, weight: "bold" }, column.widthMm * 0.5, 2);
  const name = shrink(drawing, person.name, { sizeMm: 5.6, weight: "bold" }, column.widthMm * 0.46, 2);
  const lineMm = (fitted: typeof name) => fitted.style.sizeMm * 1.24;
  return {
    heightMm: Math.max(name.lines.length * lineMm(name), beside.lines.length * lineMm(beside)) + 0.4,
    draw(topMm) {
      for (const [fitted, xMm, align] of [
        [name, column.leftMm, "left"],
        [beside, rightMm, "right"],
      ] as const) {
        tagged(drawing, "P", () =>
          fitted.lines.forEach((text, at) => {
            const baselineMm = topMm + 5 + at * lineMm(fitted);
            write(drawing, text, { xMm, baselineMm, align }, fitted.style);
          }),
        );
      }
    },
  };
}
