import {
  areaMm2,
  boundaryOf,
  intersection,
  type Outline,
  outlineOf,
  type Point,
} from "../../../src/domain/outline/index.ts";

/** What is known of a rendered photograph. */
export interface Truth {
  tags: readonly string[];
  baseOutlineMm: readonly Point[];
  equivalentDiameterMm: number;
  heightMm: number;
}

/** How far a measured outline is from the true base. */
export interface Score {
  diameterErrorMm: number;
  /** Area common to both over the area of either. */
  overlap: number;
  hausdorffMm: number;
}

export function scoreOf(measured: Outline, truth: Truth): Score {
  const base = outlineOf({ outline: truth.baseOutlineMm });
  const common = intersection([measured], [base]).reduce((sum, outline) => sum + areaMm2(outline), 0);
  return {
    diameterErrorMm: 2 * Math.sqrt(areaMm2(measured) / Math.PI) - truth.equivalentDiameterMm,
    overlap: common / (areaMm2(measured) + areaMm2(base) - common),
    hausdorffMm: Math.max(farthest(measured, base), farthest(base, measured)),
  };
}

/** Largest distance of a point of the one from the line of the other. */
function farthest(points: Outline, line: Outline): number {
  const boundary = boundaryOf(line);
  return Math.max(...points.map((point) => boundary.distanceMm(...point)));
}

/** The value that the share `part` of the values do not exceed (type 7, as R and numpy). */
export function quantile(values: readonly number[], part: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const place = part * (sorted.length - 1);
  const low = sorted[Math.floor(place)]!;
  return low + (sorted[Math.ceil(place)]! - low) * (place - Math.floor(place));
}
