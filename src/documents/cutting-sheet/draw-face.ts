import { boundaryOf, type Outline, type Point } from "../../domain/outline/index.ts";
import { drawHeadArrow } from "../drawing/arrow.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { closedLine, fillOutlines, inks, type LineStyle, line, polyline } from "../drawing/strokes.ts";
import { figure, tagged } from "../drawing/structure.ts";
import { smallestMm, type TextStyle, widthMm, write } from "../drawing/text.ts";
import { rangeInWords } from "../words.ts";
import { type Face, heavyLineMm } from "./face.ts";
import type { CuttingSheet } from "./input.ts";

/** How the lines of a face are drawn; the key shows the same. */
export const faceLines = {
  stoma: { widthMm: 0.25, ink: inks.stoma, dashMm: [1.8, 0.9] },
  opening: { widthMm: 0.15, ink: inks.quiet, dashMm: [0.3, 0.5] },
  ring: { widthMm: 0.15, ink: inks.quiet, dashMm: [1.6, 1.2] },
} as const satisfies Record<string, LineStyle>;

/** What a face needs round its ring, in millimetres. */
const titleMm = 11.8;
const headMm = 8.8;
const footMm = 5.6;
const sideMm = 15.1;

export function faceWidthMm({ extent }: Face): number {
  return extent.right - extent.left + 2 * sideMm;
}

export function faceHeightMm({ extent }: Face): number {
  return titleMm + headMm + (extent.head - extent.foot) + footMm;
}

/** How far under the face's top the words LEFT and RIGHT end. */
export function sideLabelsEndMm({ extent, centre }: Face): number {
  return titleMm + headMm + (extent.head - centre[1]) + 6;
}

const titles = {
  skin: {
    title: "Facing the skin",
    use: "For the liner of the side that sticks: print up",
    piece: "skin side",
  },
  you: { title: "Facing you", use: "As you look at the person: check with this one", piece: "your side" },
} as const;

/** Draws a face with its title; `middleMm` is the middle of its column. */
export function drawFace(
  drawing: Drawing,
  face: Face,
  sheet: CuttingSheet,
  middleMm: number,
  topMm: number,
): void {
  const { title, use } = titles[face.side];
  const centred = { xMm: middleMm, align: "centre" } as const;
  tagged(drawing, "H2", () =>
    write(drawing, title, { ...centred, baselineMm: topMm + 5.2 }, { sizeMm: 5.4, weight: "bold" }),
  );
  tagged(drawing, "P", () => write(drawing, use, { ...centred, baselineMm: topMm + 10.2 }, quiet(3.6)));

  const place = facePlacing(face, middleMm, topMm);
  figure(drawing, faceInWords(face, sheet), () => {
    drawLines(drawing, face, place);
    drawHours(drawing, face, place);
    drawMiddle(drawing, face, place);
    drawDirections(drawing, face, place);
  });
}

/** From face coordinates to the page. */
type Placing = (point: Point) => Point;

/** Where the points of a face lie on the page. */
export function facePlacing({ extent }: Face, middleMm: number, topMm: number): Placing {
  const originX = middleMm - (extent.left + extent.right) / 2;
  const originY = topMm + titleMm + headMm + extent.head;
  return ([x, y]) => [originX + x, originY - y];
}

function drawLines(drawing: Drawing, face: Face, place: Placing): void {
  const placed = (points: readonly Point[]) => points.map(place);
  fillOutlines(drawing, [placed(face.ring), placed(face.scissorPath)], inks.barrier);
  closedLine(drawing, placed(face.ring), faceLines.ring);
  for (const stretch of face.openingLines) polyline(drawing, placed(stretch), faceLines.opening);
  for (const stretch of face.stomaLines) polyline(drawing, placed(stretch), faceLines.stoma);
  fillOutlines(drawing, [placed(face.lineEdge), placed(face.scissorPath)]);
}

function drawHours(drawing: Drawing, face: Face, place: Placing): void {
  for (const { hour, at } of face.hours) {
    const [xMm, y] = place(at);
    write(drawing, `${hour}`, { xMm, baselineMm: y + 1.1, align: "centre" }, quiet(smallestMm));
  }
}

/** The cut-out piece carries its own marks: a cross, the way to the head and which side it is for. */
function drawMiddle(drawing: Drawing, { centre, side, stoma }: Face, place: Placing): void {
  const thin = { widthMm: 0.25 };
  const [x, y] = place(centre);
  line(drawing, [x - 2, y], [x + 2, y], thin);
  line(drawing, [x, y - 2], [x, y + 2], thin);
  if (roomFor(stoma, centre, { halfWidthMm: 1.8, upMm: 8, downMm: 0 })) {
    const tip = y - 7.4;
    line(drawing, [x, y - 2], [x, tip + 2], thin);
    fillOutlines(drawing, [
      [
        [x, tip],
        [x + 1.3, tip + 2.4],
        [x - 1.3, tip + 2.4],
      ],
    ]);
  }
  for (const { text, weight, downMm } of [
    { text: titles[side].piece, weight: "bold", downMm: 5.2 },
    { text: "print up", weight: "regular", downMm: 8.9 },
  ] as const) {
    const style: TextStyle = { sizeMm: smallestMm, weight };
    const halfWidthMm = widthMm(drawing, text, style) / 2 + 0.6;
    if (!roomFor(stoma, centre, { halfWidthMm, upMm: 0, downMm: downMm + 1 })) return;
    write(drawing, text, { xMm: x, baselineMm: y + downMm, align: "centre" }, style);
  }
}

function roomFor(
  stoma: Outline,
  [x, y]: Point,
  { halfWidthMm, upMm, downMm }: { halfWidthMm: number; upMm: number; downMm: number },
): boolean {
  const boundary = boundaryOf(stoma);
  return [x - halfWidthMm, x + halfWidthMm].every((atX) =>
    [y + upMm, y - downMm].every((atY) => boundary.contains(atX, atY)),
  );
}

/** Head, foot and the person's own left and right round the ring. */
function drawDirections(drawing: Drawing, { centre, extent, side }: Face, place: Placing): void {
  const [x, y] = place(centre);
  const [left, top] = place([extent.left, extent.head]);
  const [right, bottom] = place([extent.right, extent.foot]);
  const strong: TextStyle = { sizeMm: 4.2, weight: "bold" };
  drawHeadArrow(drawing, [x, top - headMm + 0.6]);
  write(drawing, "head", { xMm: x + 3.6, baselineMm: top - 2.8 }, strong);
  write(drawing, "foot", { xMm: x, baselineMm: bottom + 4.6, align: "centre" }, quiet(4.2));
  const [onLeft, onRight] = side === "skin" ? ["LEFT", "RIGHT"] : ["RIGHT", "LEFT"];
  for (const [word, xMm] of [
    [onLeft, left - sideMm / 2],
    [onRight, right + sideMm / 2],
  ] as const) {
    write(drawing, word, { xMm, baselineMm: y + 0.2, align: "centre" }, strong);
    write(drawing, "of person", { xMm, baselineMm: y + 4.2, align: "centre" }, quiet(smallestMm));
  }
}

function quiet(sizeMm: number): TextStyle {
  return { sizeMm, ink: inks.quiet };
}

function faceInWords({ side }: Face, sheet: CuttingSheet): string {
  const leftIs = side === "skin" ? "left" : "right";
  return (
    `${titles[side].title}: the hole at its real size, ${rangeInWords(sheet.holeAcrossMm)} across. ` +
    `Head at the top, the person's left on the ${leftIs}. ` +
    `The inner edge of the heavy line, ${heavyLineMm} mm wide, is the cut; the dashed line inside is the stoma; ` +
    `the dashed ring outside is ${sheet.protocol.barrierMarginMm} mm of barrier to keep.`
  );
}
