import { card, type Marker } from "../../domain/frame-card/index.ts";
import { type Outline, type Point, union } from "../../domain/outline/index.ts";
import type { Drawing } from "../drawing/drawing.ts";
import { fillOutlines } from "../drawing/strokes.ts";

/** The darkest a printer has: the reader of the photograph looks for contrast. */
const black = "#000000";

/**
 * Draws a marker as one filled path: the black square with holes where it is white. White modules that meet are
 * joined first, so that no viewer and no printer leaves a hairline between them.
 */
export function drawMarker(drawing: Drawing, marker: Marker, place: (point: Point) => Point): void {
  const side = card.markerSideMm;
  const module = side / marker.modules.length;
  const left = marker.centreMm[0] - side / 2;
  const head = marker.centreMm[1] + side / 2;
  const white = marker.modules.flatMap((row, rowAt) =>
    row.flatMap((bit, columnAt) =>
      bit === 1 ? [square(left + columnAt * module, head - rowAt * module, module)] : [],
    ),
  );
  const outlines = [square(left, head, side), ...union(white, [])];
  fillOutlines(
    drawing,
    outlines.map((outline) => outline.map(place)),
    black,
  );
}

/** Counterclockwise from the corner at the left and the foot. */
function square(left: number, head: number, side: number): Outline {
  return [
    [left, head - side],
    [left + side, head - side],
    [left + side, head],
    [left, head],
  ];
}
