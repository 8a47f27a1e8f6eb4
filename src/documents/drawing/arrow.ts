import type { Point } from "../../domain/outline/index.ts";
import type { Drawing } from "./drawing.ts";
import { fillOutlines } from "./strokes.ts";

/** An arrow to the head, 7.4 mm long, its tip at the point given. */
export function drawHeadArrow(drawing: Drawing, [x, y]: Point): void {
  const half: Point[] = [
    [0, 0],
    [2.6, 4.2],
    [0.9, 4.2],
    [0.9, 7.4],
  ];
  const other = half
    .slice(1)
    .reverse()
    .map(([dx, dy]): Point => [-dx, dy]);
  fillOutlines(drawing, [[...half, ...other].map(([dx, dy]): Point => [x + dx, y + dy])]);
}
