import type { Outline, Point } from "../outline/index.ts";
import type { LandmarkKind, SitingPosture } from "./kinds.ts";

/** Where a landmark lies, mm on the skin: navel = origin, x to the person's left, y to the head. */
export type LandmarkShape = { point: Point } | { line: readonly Point[] } | { area: Outline };

/**
 * Something that a site must keep clear of, or lie in. `muscle` is the area to lie in; `sightLimit` and `reachLimit`
 * are the area that the person does not see or reach, or the line on whose foot side it lies.
 */
export interface Landmark {
  kind: LandmarkKind;
  shape: LandmarkShape;
  /** The one posture in which it is there; left out: in all. */
  posture?: SitingPosture | undefined;
  label?: string | undefined;
  /** Of kind `otherStoma`: the diameter of its barrier. */
  barrierDiameterMm?: number | undefined;
}

/** The points that a landmark is drawn with. */
export function pointsOf(shape: LandmarkShape): readonly Point[] {
  if ("point" in shape) return [shape.point];
  return "line" in shape ? shape.line : shape.area;
}
