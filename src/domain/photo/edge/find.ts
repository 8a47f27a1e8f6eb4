import type { Point } from "../../outline/index.ts";
import { type Colours, coloursOf, stomaLikeness } from "./appearance.ts";
import { type Disc, stomaDisc } from "./disc.ts";
import type { Features } from "./features.ts";
import { likenessPaths, type PathFound, starFrom } from "./path.ts";
import { insideOf, type PolarOutline, pointsOf } from "./polar.ts";
import { type SharpOutline, sharpened } from "./sharpen.ts";

/** The outline of what stands out of the skin in the hole, as the camera sees it. */
export interface Silhouette extends SharpOutline {
  disc: Disc;
  /** Likeness to the stoma's colours, one a pixel of the patch. */
  likeness: Float32Array;
}

/** Red skin round a stoma may look like it at first: outlines that take in less and less are tried. */
const cautions = [0, 0.8, 1.8];
/** A disc may hold red skin as well: its inner parts are tried alone. */
const discShares = [1, 0.75];
const rounds = 2;
/** Nearer the outline than this nothing is learnt from: it may lie on either side. */
const marginMm = 0.8;

/** Finds the stoma's silhouette; null where nothing in the hole looks like one. */
export function findSilhouette(features: Features): Silhouette | null {
  const disc = stomaDisc(features);
  if (disc === null) return null;
  const colours = coloursOf(features);
  let star = starFrom(features, [disc.xMm, disc.yMm], disc.pinkness);
  let outline = mostStep(
    discShares.flatMap((share) => likenessPaths(firstLikeness(colours, disc, share), star, cautions)),
  );
  star = starFrom(features, centreOf(outline), disc.pinkness);
  let likeness: Float32Array = new Float32Array();
  for (let round = 0; round < rounds; round++) {
    likeness = stomaLikeness(colours, insideOf(outline), marginMm);
    outline = likenessPaths(likeness, star, [0])[0]!;
  }
  return { ...sharpened(features, outline), disc, likeness };
}

/** Learnt from the inner share of the disc and from what lies outside of it. */
function firstLikeness(colours: Colours, { xMm, yMm, radiusMm }: Disc, share: number): Float32Array {
  const radius = share * radiusMm;
  return stomaLikeness(colours, (x, y) => radius - Math.hypot(x - xMm, y - yMm), Math.min(2.5, 0.2 * radius));
}

function mostStep(paths: readonly PathFound[]): PathFound {
  return paths.reduce((best, path) => (path.stepSeen > best.stepSeen ? path : best));
}

function centreOf(outline: PolarOutline): Point {
  const points = pointsOf(outline);
  let [twice, x, y] = [0, 0, 0];
  points.forEach(([ax, ay], at) => {
    const [bx, by] = points[(at + 1) % points.length]!;
    const cross = ax * by - bx * ay;
    twice += cross;
    x += cross * (ax + bx);
    y += cross * (ay + by);
  });
  return twice > 1 ? [x / (3 * twice), y / (3 * twice)] : outline.middle;
}
