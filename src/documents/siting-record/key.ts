import { kindFacts, type LandmarkKind, type Siting } from "../../domain/siting/index.ts";
import { type Block, stacked } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { type Column, heading } from "../drawing/paragraphs.ts";
import { box, line } from "../drawing/strokes.ts";
import { artifact, tagged } from "../drawing/structure.ts";
import { smallestMm, write } from "../drawing/text.ts";
import { lineStyles, otherStyle, regionInk } from "./map.ts";

const rowMm = 4.4;
const sampleMm = 11;

/** What the lines of the map are; of kinds that are on it. */
export function mapKey(drawing: Drawing, { landmarks, muscle }: Siting, column: Column): Block {
  const kinds = [...new Set(landmarks.flatMap(({ kind, shape }) => ("point" in shape ? [] : [kind])))];
  const rows: [string, (topMm: number) => void][] = [
    [
      `keeps every limit${muscle ? "" : " that is marked"}`,
      (topMm) => box(drawing, [column.leftMm, topMm + 0.6], { widthMm: sampleMm, heightMm: 3 }, regionInk),
    ],
    ...kinds.map((kind): [string, (topMm: number) => void] => [
      kindFacts[kind].word,
      (topMm) => sample(drawing, kind, column.leftMm, topMm + 2.2),
    ]),
  ];
  return stacked([
    heading(drawing, "Key", column),
    ...rows.map(
      ([text, draw]): Block => ({
        heightMm: rowMm,
        draw(topMm) {
          artifact(drawing, () => draw(topMm));
          tagged(drawing, "P", () =>
            write(
              drawing,
              text,
              { xMm: column.leftMm + sampleMm + 2, baselineMm: topMm + 3.2 },
              { sizeMm: smallestMm },
            ),
          );
        },
      }),
    ),
  ]);
}

function sample(drawing: Drawing, kind: LandmarkKind, leftMm: number, yMm: number): void {
  line(drawing, [leftMm, yMm], [leftMm + sampleMm, yMm], lineStyles[kind] ?? otherStyle);
}
