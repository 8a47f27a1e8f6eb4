import type { Outline } from "../../../../domain/outline/index.ts";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import type { BodyOf, RecordedShape } from "../../../../record/entry/index.ts";
import { evenlySpaced } from "../../../../record/tracing/index.ts";
import { storedOutline } from "../state/index.ts";

export type CutHow = BodyOf<"cut">["how"];

/** What is on the plate when an opening is put into use. */
export interface CutFrom {
  stoma: Outline;
  /** The stoma as it was read, where it was. */
  stomaShape: RecordedShape | null;
  /** The line that is cut. */
  opening: Outline;
  clearanceMm: number;
}

/** An outline of the record holds no more points. */
const mostPoints = 2000;

/**
 * The opening as the record keeps it. A round stoma's is round and keeps its exact size; a moulded one lies at the
 * stoma's edge; a pre-cut one is as large as its box says.
 */
export function cutShape(
  how: CutHow,
  { stoma, stomaShape, opening, clearanceMm }: CutFrom,
  preCutMm: number,
  { scissorRadiusMm }: Pick<Protocol, "scissorRadiusMm">,
): { opening: RecordedShape; clearanceMm?: number } {
  if (how === "preCut") return { opening: { guide: { shape: "round", diameterMm: preCutMm } } };
  if (how === "moulded") return { opening: stomaShape ?? kept(stoma), clearanceMm: 0 };
  const across =
    stomaShape && "guide" in stomaShape && stomaShape.guide.shape === "round"
      ? stomaShape.guide.diameterMm
      : null;
  if (across !== null && across / 2 + clearanceMm >= scissorRadiusMm) {
    return { opening: { guide: { shape: "round", diameterMm: across + 2 * clearanceMm } }, clearanceMm };
  }
  return { opening: kept(opening), clearanceMm };
}

function kept(outline: Outline): RecordedShape {
  return storedOutline(outline.length > mostPoints ? evenlySpaced(outline, mostPoints) : outline);
}
