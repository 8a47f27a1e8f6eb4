import type { Outline, Point } from "../../domain/outline/index.ts";
import {
  type Landmark,
  type LandmarkKind,
  pointsOf,
  regionOf,
  type Siting,
} from "../../domain/siting/index.ts";
import type { Block } from "../drawing/block.ts";
import type { Drawing } from "../drawing/drawing.ts";
import type { Column } from "../drawing/paragraphs.ts";
import { box, closedLine, fillOutlines, inks, type LineStyle, line, polyline } from "../drawing/strokes.ts";
import { figure } from "../drawing/structure.ts";
import { smallestMm, type TextStyle, write } from "../drawing/text.ts";
import { drawDimensions } from "./dimensions.ts";
import type { ClearanceRow, MarkedPlace } from "./rows.ts";

/** What the map shows. */
export interface MapContent {
  siting: Siting;
  outline: Outline | undefined;
  marks: readonly MarkedPlace[];
  /** Landmarks that bear their number. */
  numbered: readonly ClearanceRow[];
}

/** From body millimetres to the page, and how much smaller it is drawn. */
export interface Placing {
  (at: Point): Point;
  scale: number;
  /** Edges between which landmarks are drawn. */
  topMm: number;
  bottomMm: number;
}

/** Landmarks farther out than this do not make the map smaller. */
const farthestMm = 260;
const edgeMm = 7;
const small: TextStyle = { sizeMm: smallestMm, ink: inks.quiet };

/** Each by its line alone, so that a copy in black and white still says which is which. */
export const lineStyles: Partial<Record<LandmarkKind, LineStyle>> = {
  midline: { widthMm: 0.15, ink: inks.quiet, dashMm: [3, 1.5] },
  muscle: { widthMm: 0.3, ink: inks.quiet, dashMm: [1.6, 1] },
  scar: { widthMm: 0.8, ink: inks.quiet },
  crease: { widthMm: 0.35 },
  fold: { widthMm: 0.35, dashMm: [4, 0.8] },
  beltLine: { widthMm: 0.35, dashMm: [0.5, 0.9] },
  sightLimit: { widthMm: 0.35, ink: inks.quiet, dashMm: [5, 2] },
  reachLimit: { widthMm: 0.35, ink: inks.quiet, dashMm: [5, 2] },
};
export const otherStyle: LineStyle = { widthMm: 0.35, ink: inks.quiet };

/** Soft ground for the region that keeps every limit; grey, so that it is no barrier. */
export const regionInk = "#DDE3E7";

/** The body map, as large as its column allows. */
export function bodyMapFigure(
  drawing: Drawing,
  content: MapContent,
  column: Column,
  heightMm: number,
): Block {
  return {
    heightMm,
    draw(topMm) {
      const place = placing(content, column, topMm, heightMm);
      figure(drawing, mapInWords(content), () => {
        clipped(drawing, column, topMm, heightMm, () => drawBody(drawing, content, place));
        for (const row of content.numbered) drawNumber(drawing, row, content, place, column);
        if (content.marks[0]) drawDimensions(drawing, content.siting, content.marks[0], place);
        for (const mark of content.marks) drawMark(drawing, mark, place);
        drawDirections(drawing, column, topMm, heightMm);
        drawScaleBar(drawing, column, topMm + heightMm, place.scale);
      });
    },
  };
}

function drawBody(drawing: Drawing, { siting, outline }: MapContent, place: Placing): void {
  const region = regionOf(siting);
  if (region.length > 0)
    fillOutlines(
      drawing,
      region.map((part) => part.map(place)),
      regionInk,
    );
  if (outline) closedLine(drawing, outline.map(place), { widthMm: 0.2, ink: inks.quiet });
  for (const landmark of siting.landmarks) drawLandmark(drawing, landmark, place);
}

/** Lines that go on for ever end at the edge of the map. */
function clipped(
  { pdf }: Drawing,
  { leftMm, widthMm }: Column,
  topMm: number,
  heightMm: number,
  draw: () => void,
): void {
  pdf.save();
  pdf.rect(leftMm, topMm + edgeMm, widthMm, heightMm - 2 * edgeMm).clip();
  draw();
  pdf.restore();
}

function placing(
  { siting, outline, marks }: MapContent,
  column: Column,
  topMm: number,
  heightMm: number,
): Placing {
  const points = [
    ...(outline ?? []),
    ...marks.map(({ at }) => at),
    ...siting.landmarks
      .filter(({ kind }) => ["navel", "muscle", "hipBone", "bone"].includes(kind))
      .flatMap(({ shape }) => pointsOf(shape)),
  ].filter(([x, y]) => Math.abs(x) <= farthestMm && Math.abs(y) <= farthestMm);
  const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [foot, head] = [Math.min(...ys), Math.max(...ys)];
  const room = { x: column.widthMm - 2 * edgeMm, y: heightMm - 2 * edgeMm };
  const scale = Math.min(room.x / Math.max(1, right - left), room.y / Math.max(1, head - foot));
  const middleX = column.leftMm + column.widthMm / 2 - (scale * (left + right)) / 2;
  const middleY = topMm + heightMm / 2 + (scale * (foot + head)) / 2;
  return Object.assign(([x, y]: Point): Point => [middleX + scale * x, middleY - scale * y], {
    scale,
    topMm: topMm + edgeMm,
    bottomMm: topMm + heightMm - edgeMm,
  });
}

function drawLandmark(drawing: Drawing, { kind, shape }: Landmark, place: Placing): void {
  const style = lineStyles[kind] ?? otherStyle;
  if ("point" in shape) {
    drawPoint(drawing, kind, place(shape.point));
  } else if ("area" in shape) {
    closedLine(drawing, shape.area.map(place), style);
  } else {
    polyline(drawing, shape.line.map(place), style);
  }
}

/** The navel is a ring, a bone a filled triangle, anything else a small square. */
function drawPoint(drawing: Drawing, kind: LandmarkKind, [x, y]: Point): void {
  if (kind === "navel") {
    const ring = Array.from({ length: 36 }, (_, at): Point => {
      const turn = (at * Math.PI) / 18;
      return [x + 1.4 * Math.cos(turn), y + 1.4 * Math.sin(turn)];
    });
    closedLine(drawing, ring, { widthMm: 0.4 });
  } else if (kind === "hipBone" || kind === "bone") {
    fillOutlines(drawing, [
      [
        [x, y - 1.5],
        [x + 1.5, y + 1.2],
        [x - 1.5, y + 1.2],
      ],
    ]);
  } else {
    box(drawing, [x - 0.9, y - 0.9], { widthMm: 1.8, heightMm: 1.8 }, inks.quiet);
  }
}

/** A landmark's number at the end of it that is farther from the first mark, inside the map. */
function drawNumber(
  drawing: Drawing,
  { rule, number }: ClearanceRow,
  { marks }: MapContent,
  place: Placing,
  column: Column,
): void {
  const { shape } = rule.landmark;
  const points = "line" in shape ? [shape.line[0]!, shape.line.at(-1)!] : pointsOf(shape);
  const first = marks[0]?.at ?? [0, 0];
  const away = (at: Point) => Math.hypot(at[0] - first[0], at[1] - first[1]);
  const [x, y] = place(points.reduce((a, b) => (away(b) > away(a) ? b : a)));
  const xMm = Math.max(column.leftMm, Math.min(column.leftMm + column.widthMm - 5, x + 1.2));
  const baselineMm = Math.max(place.topMm + 3.2, Math.min(place.bottomMm, y - 0.8));
  write(drawing, `${number}`, { xMm, baselineMm }, { ...small, weight: "bold" });
}

/** A cross with its rank: the stoma to be. */
function drawMark(drawing: Drawing, { rank, at }: MarkedPlace, place: Placing): void {
  const [x, y] = place(at);
  const style: LineStyle = { widthMm: 0.7, ink: inks.stoma };
  line(drawing, [x - 2, y - 2], [x + 2, y + 2], style);
  line(drawing, [x - 2, y + 2], [x + 2, y - 2], style);
  write(
    drawing,
    `${rank}`,
    { xMm: x + 2.6, baselineMm: y + 4.4 },
    { sizeMm: 4.6, weight: "bold", ink: inks.stoma },
  );
}

function drawDirections(
  drawing: Drawing,
  { leftMm, widthMm }: Column,
  topMm: number,
  heightMm: number,
): void {
  const strong: TextStyle = { sizeMm: 3.6, weight: "bold" };
  const middle = leftMm + widthMm / 2;
  write(drawing, "head", { xMm: middle, baselineMm: topMm + 4, align: "centre" }, strong);
  write(drawing, "foot", { xMm: middle, baselineMm: topMm + heightMm - 1.4, align: "centre" }, small);
  write(drawing, "RIGHT of person", { xMm: leftMm, baselineMm: topMm + 4 }, strong);
  write(drawing, "LEFT of person", { xMm: leftMm + widthMm, baselineMm: topMm + 4, align: "right" }, strong);
}

/** 50 mm on the body; lengths are read from the figures, not from the page. */
function drawScaleBar(drawing: Drawing, { leftMm }: Column, bottomMm: number, scale: number): void {
  const widthMm = 50 * scale;
  box(drawing, [leftMm, bottomMm - 3.4], { widthMm, heightMm: 0.5 });
  for (const at of [0, widthMm - 0.3])
    box(drawing, [leftMm + at, bottomMm - 4.6], { widthMm: 0.3, heightMm: 1.7 });
  write(drawing, "50 mm on the body", { xMm: leftMm + widthMm + 1.6, baselineMm: bottomMm - 2.6 }, small);
}

function mapInWords({ marks }: MapContent): string {
  const places = marks.map(({ rank, place }) => `${rank}: ${place.finding.words}`).join(" ");
  return `Body map seen by somebody who faces the person, head at the top, the person's left on the right. Grey: all places that keep every limit. Marked places: ${places}`;
}
