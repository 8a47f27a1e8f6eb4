import type { Point } from "../../domain/outline/index.ts";
import { pointsOf, type Siting } from "../../domain/siting/index.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { box, fillOutlines, inks, type LineStyle, line } from "../drawing/strokes.ts";
import { smallestMm, type TextStyle, widthMm, write } from "../drawing/text.ts";
import type { Placing } from "./map.ts";
import type { MarkedPlace } from "./rows.ts";

const thin: LineStyle = { widthMm: 0.2 };
const tape: LineStyle = { widthMm: 0.2, dashMm: [1, 0.8] };
const figureStyle: TextStyle = { sizeMm: smallestMm, weight: "bold" };

/** How the first choice is found: across and up or down from the navel, and by tape from the hip bone. */
export function drawDimensions(
  drawing: Drawing,
  { landmarks }: Siting,
  mark: MarkedPlace,
  place: Placing,
): void {
  const { at } = mark;
  const { leftMm, headMm, fromHipBoneMm } = mark.place.finding;
  const navel = pointsOf(landmarks.find(({ kind }) => kind === "navel")!.shape)[0]!;
  const corner: Point = [navel[0], at[1]];
  dimension(drawing, place(corner), place(at), Math.abs(leftMm));
  dimension(drawing, place(navel), place(corner), Math.abs(headMm));
  if (fromHipBoneMm === null) return;
  const hip = landmarks
    .filter(({ kind }) => kind === "hipBone")
    .map(({ shape }) => pointsOf(shape)[0]!)
    .find(([x]) => (leftMm < 0 ? x < 0 : x > 0))!;
  line(drawing, place(hip), place(at), tape);
  figureOn(drawing, place(hip), place(at), fromHipBoneMm);
}

function dimension(drawing: Drawing, from: Point, to: Point, mm: number): void {
  line(drawing, from, to, thin);
  const long = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (long > 4) {
    arrowHead(drawing, from, to);
    arrowHead(drawing, to, from);
  }
  const across = Math.abs(to[0] - from[0]) > Math.abs(to[1] - from[1]);
  const neededMm = across ? widthMm(drawing, textOf(mm), figureStyle) + 5 : 8;
  if (long >= neededMm) figureOn(drawing, from, to, mm);
  else figureBeside(drawing, from, to, mm);
}

/** Where the line is too short for its figure: on the side that is away from the mark. */
function figureBeside(drawing: Drawing, from: Point, to: Point, mm: number): void {
  const [x, y] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2];
  const outward = to[0] > from[0] ? -1 : 1;
  const wide = widthMm(drawing, textOf(mm), figureStyle) + 1;
  const middleX = (to[0] === from[0] ? x : from[0]) + outward * (wide / 2 + 1);
  figureAt(drawing, [middleX, y], mm);
}

function arrowHead(drawing: Drawing, from: Point, tip: Point): void {
  const long = Math.hypot(tip[0] - from[0], tip[1] - from[1]);
  const [ux, uy] = [(tip[0] - from[0]) / long, (tip[1] - from[1]) / long];
  const back: Point = [tip[0] - 1.6 * ux, tip[1] - 1.6 * uy];
  fillOutlines(drawing, [
    [tip, [back[0] - 0.5 * uy, back[1] + 0.5 * ux], [back[0] + 0.5 * uy, back[1] - 0.5 * ux]],
  ]);
}

function figureOn(drawing: Drawing, from: Point, to: Point, mm: number): void {
  figureAt(drawing, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2], mm);
}

/** A length on white, so that nothing runs through it. */
function figureAt(drawing: Drawing, [x, y]: Point, mm: number): void {
  const wide = widthMm(drawing, textOf(mm), figureStyle) + 1;
  box(drawing, [x - wide / 2, y - 1.7], { widthMm: wide, heightMm: 3.6 }, inks.paper);
  write(drawing, textOf(mm), { xMm: x, baselineMm: y + 1.2, align: "centre" }, figureStyle);
}

function textOf(mm: number): string {
  return `${Math.round(mm)} mm`;
}
