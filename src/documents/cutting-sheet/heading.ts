import { type Block, space, stacked } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { type Column, paragraph, rule } from "../drawing/paragraphs.ts";
import { box, inks } from "../drawing/strokes.ts";
import { tagged } from "../drawing/structure.ts";
import { shrink, type TextStyle, widthMm, write } from "../drawing/text.ts";
import { canPrint } from "../drawing/typeface.ts";
import { dayInWords, plainDate } from "../words.ts";
import type { CuttingSheet } from "./input.ts";

/** Who, which stoma, when and by whom: the same on every page. */
export function sheetHeading(drawing: Drawing, sheet: CuttingSheet, column: Column, page?: string): Block {
  return stacked([
    titleRow(drawing, sheet, column, page),
    rule(drawing, column, 0.9, 1.6),
    personRow(drawing, sheet, column),
    paragraph(drawing, madeInWords(sheet), column, { sizeMm: 3.6, ink: inks.quiet }),
    space(1),
  ]);
}

function titleRow(drawing: Drawing, { clinic, demo }: CuttingSheet, column: Column, page?: string): Block {
  const rightMm = column.leftMm + column.widthMm;
  const title: TextStyle = { sizeMm: 9.4, weight: "bold" };
  const small: TextStyle = { sizeMm: 3.6, ink: inks.quiet };
  const titleWidthMm = widthMm(drawing, "Cutting sheet", title);
  const clinicText = said(clinic.name, "Clinic: the name's script cannot be printed here");
  const besideMm = column.widthMm - titleWidthMm - 8;
  const name = shrink(drawing, clinicText, small, besideMm, 1);
  const { lines } = name;
  const nameHeightMm = (lines.length - 1) * 4.4;
  return {
    heightMm: 10.4 + nameHeightMm,
    draw(topMm) {
      const baselineMm = topMm + 7.8 + nameHeightMm;
      tagged(drawing, "H1", () => write(drawing, "Cutting sheet", { xMm: column.leftMm, baselineMm }, title));
      tagged(drawing, "P", () =>
        lines.forEach((line, index) => {
          const at = { xMm: rightMm, baselineMm: topMm + 3 + index * 4.4, align: "right" } as const;
          write(drawing, line, at, name.style);
        }),
      );
      drawTag(drawing, [demo ? "DEMO, invented person: do not cut" : "", page ?? ""], rightMm, baselineMm);
    },
  };
}

/** A black tag with the word demo, and the page's number before it. */
function drawTag(
  drawing: Drawing,
  [demo, page]: [string, string],
  rightMm: number,
  baselineMm: number,
): void {
  const style: TextStyle = { sizeMm: 3.6, weight: "bold" };
  let endMm = rightMm;
  if (demo) {
    const wide = widthMm(drawing, demo, style) + 3;
    tagged(drawing, "P", () => {
      box(drawing, [rightMm - wide, baselineMm - 3.6], { widthMm: wide, heightMm: 5 });
      write(
        drawing,
        demo,
        { xMm: rightMm - wide / 2, baselineMm, align: "centre" },
        { ...style, ink: inks.paper },
      );
    });
    endMm -= wide + 3;
  }
  if (page)
    tagged(drawing, "P", () => write(drawing, page, { xMm: endMm, baselineMm, align: "right" }, style));
}

/** The name and which stoma on the left, the other identifiers on the right; long ones shrink, then wrap. */
function personRow(drawing: Drawing, { person, stomaLabel }: CuttingSheet, column: Column): Block {
  const rightMm = column.leftMm + column.widthMm;
  const rightWidthMm = column.widthMm * 0.36;
  const leftWidthMm = column.widthMm - rightWidthMm - 6;
  const printable = canPrint(person.name);
  const name = printable
    ? shrink(drawing, person.name, { sizeMm: 5.6, weight: "bold" }, leftWidthMm, 2)
    : shrink(drawing, unprintableName, { sizeMm: 4 }, leftWidthMm, 3);
  const identifiers = [
    person.birthDate && `Born ${plainDate(person.birthDate)}`,
    person.identifier && canPrint(person.identifier) && `No. ${person.identifier}`,
  ].filter((text) => typeof text === "string");
  const right = identifiers.map((text) =>
    shrink(drawing, text, { sizeMm: 4.2, weight: "bold" }, rightWidthMm, 2),
  );
  const left = [name, shrink(drawing, stomaLabel, { sizeMm: 4.2 }, leftWidthMm, 2)];
  return {
    heightMm: Math.max(textHeightMm(left), textHeightMm(right)) + 0.4,
    draw(topMm) {
      tagged(drawing, "P", () => writeFitted(drawing, left, { xMm: column.leftMm, align: "left" }, topMm));
      tagged(drawing, "P", () => writeFitted(drawing, right, { xMm: rightMm, align: "right" }, topMm));
    },
  };
}

const unprintableName =
  "Name: write it here ______________________________ (its script cannot be printed on this sheet; check both identifiers)";

type Fitted = ReturnType<typeof shrink>;
const leading = 1.24;

function textHeightMm(texts: readonly Fitted[]): number {
  return texts.reduce((height, { style, lines }) => height + lines.length * style.sizeMm * leading, 0);
}

function writeFitted(
  drawing: Drawing,
  texts: readonly Fitted[],
  place: { xMm: number; align: "left" | "right" },
  topMm: number,
): void {
  let top = topMm;
  for (const { style, lines } of texts) {
    for (const line of lines) {
      write(drawing, line, { ...place, baselineMm: top + style.sizeMm }, style);
      top += style.sizeMm * leading;
    }
  }
}

function madeInWords({ dayOfRecovery, madeOn, by, method }: CuttingSheet): string {
  const day = dayOfRecovery === undefined ? "" : `day ${dayOfRecovery}, `;
  const author = said(by, "somebody whose name's script cannot be printed here");
  return `Made ${day}${dayInWords(madeOn)}, by ${author}, from ${method}`;
}

/** A text as it is, or words in its place where no typeface has its script: never empty boxes. */
function said(text: string, otherwise: string): string {
  return text.trim() && canPrint(text) ? text : otherwise;
}
