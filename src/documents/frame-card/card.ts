import { card } from "../../domain/frame-card/index.ts";
import type { Point } from "../../domain/outline/index.ts";
import { drawHeadArrow } from "../drawing/arrow.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { closedLine, fillOutlines, inks } from "../drawing/strokes.ts";
import { figure } from "../drawing/structure.ts";
import { type TextStyle, write } from "../drawing/text.ts";
import { drawMarker } from "./marker.ts";

const cutLineMm = 0.2;
const strong: TextStyle = { sizeMm: 4, weight: "bold" };
const quiet: TextStyle = { sizeMm: 3.4, ink: inks.quiet };

const alt =
  `The frame card at its real size: ${card.sideMm} mm square with a round hole of ${2 * card.holeRadiusMm} mm and ` +
  `${card.markers.length} black and white markers. Head at the top, the person's left on the right.`;

/** Draws the card with its cut lines, the middle of its hole at the point given. */
export function drawCard(drawing: Drawing, [middleX, middleY]: Point): void {
  const place = ([x, y]: Point): Point => [middleX + x, middleY - y];
  figure(drawing, alt, () => {
    drawCutLines(drawing, place);
    for (const marker of card.markers) drawMarker(drawing, marker, place);
    drawWords(drawing, place);
  });
}

/** Cut lines lie on the waste: the card is what is left when none of them is. */
function drawCutLines(drawing: Drawing, place: (point: Point) => Point): void {
  const out = card.sideMm / 2 + cutLineMm / 2;
  const corners: Point[] = [
    [-out, out],
    [out, out],
    [out, -out],
    [-out, -out],
  ];
  closedLine(drawing, corners.map(place), { widthMm: cutLineMm, ink: inks.quiet });
  fillOutlines(
    drawing,
    [circle(card.holeRadiusMm), circle(card.holeRadiusMm - cutLineMm)].map((ring) => ring.map(place)),
    inks.quiet,
  );
}

function circle(radiusMm: number): Point[] {
  return Array.from({ length: 360 }, (_, degree): Point => {
    const angle = (degree * Math.PI) / 180;
    return [radiusMm * Math.cos(angle), radiusMm * Math.sin(angle)];
  });
}

/** Words between the markers, well clear of them, and on the waste in the hole. Never a name: it is photographed. */
function drawWords(drawing: Drawing, place: (point: Point) => Point): void {
  const said = (text: string, at: Point, style: TextStyle) => {
    const [xMm, baselineMm] = place(at);
    write(drawing, text, { xMm, baselineMm, align: "centre" }, style);
  };
  drawHeadArrow(drawing, place([27, 60]));
  said("head", [27, 48.4], strong);
  said("this side up", [-27, 55], strong);
  said("toward the camera", [-27, 50], quiet);
  said("LEFT", [54, 28], strong);
  said("of person", [54, 23.6], quiet);
  said("RIGHT", [-54, 28], strong);
  said("of person", [-54, 23.6], quiet);
  said("across bar", [-27, -50], quiet);
  said("______________ mm", [-27, -57], quiet);
  said("upright bar", [27, -50], quiet);
  said("______________ mm", [27, -57], quiet);
  said("one person,", [54, -24], quiet);
  said("used once", [54, -28.6], quiet);
  said("never on", [-54, -24], quiet);
  said("open skin", [-54, -28.6], quiet);
  said("cut out this circle", [0, 4], strong);
  said("and throw it away", [0, -1.4], quiet);
}
