import { neededPostures, type SitingPosture } from "../../domain/siting/index.ts";
import { type Block, space, stacked } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { type Column, heading, list, paragraph, rule } from "../drawing/paragraphs.ts";
import { box, inks, line } from "../drawing/strokes.ts";
import { artifact, tagged } from "../drawing/structure.ts";
import { type TextStyle, widthMm, write } from "../drawing/text.ts";
import type { SitingRecord } from "./input.ts";
import type { MarkedPlace } from "./rows.ts";
import { consentInWords, markInWords, muscleInWords, postureWords, rankWords } from "./words.ts";

const body: TextStyle = { sizeMm: 3.6 };

/** Each place in words, to be found without the picture, and what it does not keep. */
export function placesInWords(drawing: Drawing, marks: readonly MarkedPlace[], column: Column): Block {
  const items = marks.map((mark, at) => ({
    text: `${rankWords[at] ?? `Choice ${mark.rank}`}. ${mark.place.finding.words} ${markInWords({ ...mark, note: mark.note && cut(mark.note, 120) })} ${keptInWords(mark)}`,
  }));
  return stacked([
    heading(drawing, "The places in words", column),
    list(drawing, items, column, { sizeMm: body.sizeMm, numbered: true }),
  ]);
}

function keptInWords({ place }: MarkedPlace): string {
  const flat = place.barrier.flatAcrossMm;
  const even = flat === null ? "" : ` Even skin ${Math.round(flat)} mm across.`;
  const broken = [...new Set(place.complaints.map(({ to }) => to))];
  if (broken.length === 0) return `Every limit kept.${even}`;
  const most = 3;
  const named = broken
    .slice(0, most)
    .map((name) => cut(name, 34))
    .join(", ");
  const more = broken.length > most ? ` and ${broken.length - most} more` : "";
  return `NOT kept: ${named}${more}.${even}`;
}

/** A text no longer than so many characters, so that the page holds it. */
function cut(text: string, most: number): string {
  return text.length > most ? `${text.slice(0, most - 1).trimEnd()}…` : text;
}

/** Boxes for the postures that were looked at, and what the person sees and reaches. */
export function checklist(drawing: Drawing, record: SitingRecord, column: Column): Block {
  const postures: SitingPosture[] = [
    ...neededPostures,
    ...(record.postures.includes("usual") ? (["usual"] as const) : []),
  ];
  const boxes = [
    ...postures.map((posture) => ({
      text: postureWords[posture],
      ticked: record.postures.includes(posture),
    })),
    { text: "sees it", ticked: record.sees },
    { text: "reaches it", ticked: record.reaches },
  ];
  const missing = neededPostures.filter((posture) => !record.postures.includes(posture));
  return stacked([
    heading(drawing, "Looked at", column),
    boxRow(drawing, boxes, column),
    paragraph(drawing, `${muscleInWords(record)}${missingInWords(record, missing)}`, column, body),
  ]);
}

function missingInWords({ emergency }: SitingRecord, missing: readonly SitingPosture[]): string {
  if (missing.length === 0) return "";
  const names = missing.map((posture) => postureWords[posture]).join(", ");
  return ` Not looked at: ${names}${emergency ? " (emergency)" : ""}. The place may change in them.`;
}

interface Tick {
  text: string;
  /** Undefined: nobody said. */
  ticked: boolean | undefined;
}

function boxRow(drawing: Drawing, ticks: readonly Tick[], column: Column): Block {
  const rowMm = 5.6;
  const placed: { words: string; ticked: boolean; xMm: number; row: number }[] = [];
  let [xMm, row] = [column.leftMm, 0];
  for (const { text, ticked } of ticks) {
    const words = `${text}${ticked === undefined ? " ?" : ticked ? "" : ": no"}`;
    const wideMm = widthMm(drawing, words, body) + 5;
    if (xMm + wideMm > column.leftMm + column.widthMm) [xMm, row] = [column.leftMm, row + 1];
    placed.push({ words, ticked: ticked === true, xMm, row });
    xMm += wideMm + 4;
  }
  return {
    heightMm: (row + 1) * rowMm + 0.6,
    draw(topMm) {
      for (const one of placed) {
        const top = topMm + one.row * rowMm;
        drawBox(drawing, one.xMm, top + 0.8, one.ticked);
        tagged(drawing, "P", () =>
          write(drawing, one.words, { xMm: one.xMm + 5, baselineMm: top + 4 }, body),
        );
      }
    },
  };
}

function drawBox(drawing: Drawing, x: number, y: number, ticked: boolean): void {
  artifact(drawing, () => {
    box(drawing, [x, y], { widthMm: 3.6, heightMm: 3.6 });
    box(drawing, [x + 0.3, y + 0.3], { widthMm: 3, heightMm: 3 }, inks.paper);
    if (!ticked) return;
    line(drawing, [x + 0.8, y + 1.9], [x + 1.6, y + 2.8], { widthMm: 0.5 });
    line(drawing, [x + 1.6, y + 2.8], [x + 3, y + 0.8], { widthMm: 0.5 });
  });
}

/** What the person said, and lines for who marked and for the surgeon. */
export function consentAndSignatures(drawing: Drawing, record: SitingRecord, column: Column): Block {
  const half = column.widthMm / 2;
  return stacked([
    heading(drawing, "Consent and signatures", column),
    paragraph(drawing, consentInWords(record), column, body),
    space(7.4),
    {
      heightMm: 5.6,
      draw(topMm) {
        signatureLine(drawing, column.leftMm, half - 5, topMm, `Marked by ${record.by}: signature, date`);
        signatureLine(
          drawing,
          column.leftMm + half,
          half,
          topMm,
          "Surgeon: place chosen (1, 2, 3 or other), signature, date",
        );
      },
    },
  ]);
}

function signatureLine(drawing: Drawing, leftMm: number, wideMm: number, topMm: number, text: string): void {
  artifact(drawing, () => box(drawing, [leftMm, topMm], { widthMm: wideMm, heightMm: 0.25 }));
  tagged(drawing, "P", () =>
    write(drawing, text, { xMm: leftMm, baselineMm: topMm + 4 }, { sizeMm: 3.2, ink: inks.quiet }),
  );
}

export function recordFoot(drawing: Drawing, record: SitingRecord, column: Column): Block {
  const { clinic, demo, continentPlan, note } = record;
  const cautions = [
    "Distances are along the skin, the person lying flat. The surgeon decides; local protocol holds.",
    continentPlan ? "Continent plan: mark a place for a conduit too, in case it fails." : "",
    note ? `Note: ${cut(note, 220)}` : "",
  ];
  return stacked([
    rule(drawing, column, 0.9, 1),
    paragraph(drawing, cautions.filter(Boolean).join(" "), column, { sizeMm: 3.6, weight: "bold" }),
    paragraph(
      drawing,
      `${demo ? "DEMO · " : ""}${clinic.name} · nurse ${clinic.nursePhone} · for the record and the operating theatre.`,
      column,
      { sizeMm: 3.4, ink: inks.quiet },
    ),
  ]);
}
