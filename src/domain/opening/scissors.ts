import {
  boundaryOf,
  difference,
  distanceMm,
  evenlySpaced,
  grown,
  largestPart,
  type Outline,
  type Point,
  perimeterMm,
  thinned,
  union,
} from "../outline/index.ts";
import { parallelCurve } from "./parallel.ts";

/** The path is drawn this much outside, mm, so that its own tolerance never puts it inside the stoma. */
const slackMm = 0.006;

/** How far the path may lie from the exact one, mm: a hundredth of a printed line. */
const toleranceMm = 0.003;

/** Curves that stay in the path are drawn finer, so that even spacing does not beat with their sides, mm. */
const finishMm = 0.0005;

/** Curves are drawn this much wider than asked, so that the polygon's corners turn no tighter either. */
const wider = 1.05;

/** Distance between points of a rounded path, mm: their chords leave a 3 mm curve by 0.003 mm at most. */
const stepMm = 0.25;

/** An outline metres round keeps the points it has. */
const mostPoints = 8000;

/** A corner that a curve of the wanted radius would cut by no more than this is already such a curve, mm. */
const cornerCutMm = 0.005;

export interface ScissorPath {
  path: Outline;
  /** Where it is tighter than the radius because the stoma reaches into the corner; else empty. */
  tightAt: readonly Point[];
}

/**
 * The opening as scissors can follow it: no curve tighter than `radiusMm`, and nowhere inside the stoma.
 *
 * Inward corners are filled by a disc of that radius rolled along the outside, outward corners are rounded
 * by one rolled along the inside. A corner whose rounding would cut into the stoma stays as the opening has
 * it: there the outline allows no wider curve.
 *
 * @param opening counterclockwise
 * @param stoma what the path must enclose; itself inside the opening
 * @source Serra 1982, Image Analysis and Mathematical Morphology: closing, then opening, by a disc
 */
export function scissorPathFor(opening: Outline, stoma: Outline, radiusMm: number): ScissorPath {
  if (followsCurve(opening, radiusMm)) return { path: opening, tightAt: [] };
  const ball = radiusMm * wider;
  // Out by one radius, in by two, out by one: a closing and an opening that share their middle step.
  const outside = parallelCurve(thinned(opening, toleranceMm), ball + slackMm, toleranceMm) ?? opening;
  const inside = parallelCurve(outside, -2 * ball - slackMm, finishMm);
  const rounded = inside && parallelCurve(inside, ball + slackMm, finishMm);
  if (rounded && encloses(rounded, stoma)) return { path: spaced(rounded), tightAt: [] };
  return withCornersKept(outside, stoma, radiusMm);
}

function spaced(path: Outline): Outline {
  return perimeterMm(path) > mostPoints * stepMm ? path : evenlySpaced(path, stepMm);
}

/** Whether each corner could give way to an arc of the radius without being cut visibly. */
export function followsCurve(outline: Outline, radiusMm: number): boolean {
  const count = outline.length;
  let a = outline[count - 1]!;
  let b = outline[0]!;
  let before = distanceMm(a, b);
  for (let at = 0; at < count; at += 1) {
    const c = outline[at + 1 < count ? at + 1 : 0]!;
    const after = distanceMm(b, c);
    const cosine = ((b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])) / (before * after);
    const halfCosine = Math.sqrt(Math.max(0, (1 + cosine) / 2));
    const tangent = Math.sqrt(Math.max(0, 1 - halfCosine * halfCosine)) / halfCosine;
    if (radiusMm * tangent > Math.min(before, after) / 2) return false;
    if (radiusMm * (1 / halfCosine - 1) > cornerCutMm) return false;
    a = b;
    b = c;
    before = after;
  }
  return true;
}

/** Whether all of one outline lies inside another. */
function encloses(outer: Outline, inner: Outline): boolean {
  const [outerEdge, innerEdge] = [boundaryOf(outer), boundaryOf(inner)];
  return (
    inner.every(([x, y]) => outerEdge.contains(x, y)) && !outer.some(([x, y]) => innerEdge.contains(x, y))
  );
}

/** Rounds what can be rounded, then puts back each cut-off corner that has a part of the stoma in it. */
function withCornersKept(outside: Outline, stoma: Outline, radiusMm: number): ScissorPath {
  const ball = radiusMm * wider;
  const filled = parallelCurve(outside, -ball, toleranceMm) ?? outside;
  // A little larger than the filled opening where both run along it, so that only cut-off corners differ.
  const rounded = grown(grown([outside], -2 * ball - slackMm), ball + 2 * slackMm);
  const roundedEdges = rounded.map(boundaryOf);
  const uncovered = stoma.filter(([x, y]) => !roundedEdges.some((edge) => edge.contains(x, y)));
  const corners = difference([filled], rounded).filter((corner) => {
    const edge = boundaryOf(corner);
    return uncovered.some(([x, y]) => edge.contains(x, y));
  });
  const path = largestPart(union(rounded, corners)) ?? filled;
  return { path, tightAt: tightPlaces(path, radiusMm) };
}

/** Where three points half a millimetre apart lie on a circle smaller than the radius. */
function tightPlaces(path: Outline, radiusMm: number): Outline {
  const points = evenlySpaced(path, Math.max(2 * stepMm, perimeterMm(path) / mostPoints));
  return points.filter((b, at) => {
    const a = points.at(at - 1)!;
    const c = points[(at + 1) % points.length]!;
    const twiceArea = Math.abs((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]));
    return distanceMm(a, b) * distanceMm(b, c) * distanceMm(a, c) < 2 * twiceArea * radiusMm;
  });
}
