import { colourDifference } from "../colour/difference.ts";
import { labOf } from "../colour/lab.ts";
import { inPatch, type Patch } from "../patch/patch.ts";
import type { Features } from "./features.ts";
import type { Silhouette } from "./find.ts";
import { direction, pointsOf } from "./polar.ts";
import { slackMm } from "./slack.ts";

/** How clearly an outline is seen. */
export interface EdgeQuality {
  /** Share of the rays at whose edge the picture is white to the limit. */
  glareShare: number;
  /** Least distance of the outline from the hole's edge. */
  holeGapMm: number;
  /** Median CIEDE2000 between just inside and just outside. */
  colourStep: number;
  /** Mean distance by which the outline could lie further in or out. */
  slackMm: number;
  /** Share of rays whose edge is not clear. */
  unclearShare: number;
  roughnessMm: number;
  /** Width over which stoma goes over into skin. */
  edgeWidthMm: number;
}

const besideMm = 1.2;
const clear = 1;

export function edgeQuality(
  patch: Patch,
  features: Features,
  silhouette: Silhouette,
  holeRadiusMm: number,
): EdgeQuality {
  const points = pointsOf(silhouette);
  const rays = points.length;
  const steps = points.map(([x, y], ray) => {
    const [c, s] = direction(ray, rays);
    return colourDifference(
      colourAt(patch, features, x - besideMm * c, y - besideMm * s),
      colourAt(patch, features, x + besideMm * c, y + besideMm * s),
    );
  });
  const glare = points.filter(([x, y], ray) => {
    const [c, s] = direction(ray, rays);
    return isFull(patch, x - 0.6 * c, y - 0.6 * s) && isFull(patch, x + 0.6 * c, y + 0.6 * s);
  });
  const slack = slackMm(silhouette.likeness, features, silhouette);
  return {
    glareShare: glare.length / rays,
    holeGapMm: holeRadiusMm - Math.max(...points.map(([x, y]) => Math.hypot(x, y))),
    colourStep: steps.sort((a, b) => a - b)[rays >> 1]!,
    slackMm: slack.reduce((sum, value) => sum + value, 0) / rays,
    unclearShare: silhouette.clarity.filter((value) => value < clear).length / rays,
    roughnessMm: silhouette.roughnessMm,
    edgeWidthMm: silhouette.edgeWidthMm,
  };
}

function colourAt(patch: Patch, { side, reflected }: Features, xMm: number, yMm: number) {
  const at = indexAt(patch, side, xMm, yMm);
  return labOf(reflected[0][at]!, reflected[1][at]!, reflected[2][at]!);
}

function isFull(patch: Patch, xMm: number, yMm: number): boolean {
  return patch.full[indexAt(patch, patch.side, xMm, yMm)] === 1;
}

function indexAt(patch: Patch, side: number, xMm: number, yMm: number): number {
  const [column, row] = inPatch(patch, xMm, yMm).map((value) =>
    Math.min(side - 1, Math.max(0, Math.round(value))),
  );
  return row! * side + column!;
}
