import { type ExposedSkin, exposedSkin } from "../../domain/exposed/index.ts";
import { centroidMm, outlineOf, type Point } from "../../domain/outline/index.ts";
import type { CutOpening } from "./openings.ts";
import type { Reading } from "./readings.ts";

/**
 * The skin that an opening leaves bare round a measured stoma. An opening cut from that very reading lies where
 * it was drawn; any other is taken to lie with its centre on the stoma's, as nobody knows how it was put on.
 */
export function gapBetween(reading: Reading, opening: CutOpening): ExposedSkin {
  const stoma = outlineOf(reading.shape);
  const hole = outlineOf(opening.shape);
  const offsetMm = isCutFrom(reading, opening) ? undefined : between(centroidMm(hole), centroidMm(stoma));
  return exposedSkin({ stoma: { outline: stoma }, opening: { outline: hole }, offsetMm });
}

function isCutFrom({ source }: Reading, opening: CutOpening): boolean {
  const { measuredId } = opening.source.entry.body;
  return measuredId === source.entry.id || measuredId === source.first.id;
}

function between([fromX, fromY]: Point, [toX, toY]: Point): Point {
  return [toX - fromX, toY - fromY];
}
