import type { Boundary, Point } from "../outline/index.ts";
import type { Piece } from "./sectors.ts";

/** Greatest and least gap found on some pieces of an opening. */
export interface GapRange {
  maxMm: number;
  minMm: number;
}

/** Gaps are found to this, mm. */
const toleranceMm = 1e-4;

/**
 * The range of the gap along pieces of an opening's edge. The gap at a place is its distance to the stoma's
 * outline, in whatever direction that lies (not along a ray), and negative where the place is inside it.
 */
export function gapRange(pieces: readonly Piece[], stoma: Boundary): GapRange {
  let maxMm = Number.NEGATIVE_INFINITY;
  let minMm = Number.POSITIVE_INFINITY;
  let last: Place | null = null;
  for (const piece of pieces) {
    const from: Place = last?.at === piece.from ? last : placeAt(piece.from, stoma);
    const to = placeAt(piece.to, stoma);
    maxMm = farthest({ from, to }, stoma, 1, maxMm);
    minMm = -farthest({ from, to }, stoma, -1, -minMm);
    last = to;
  }
  return { maxMm, minMm };
}

interface Place {
  at: Point;
  /** Signed gap, and the edge of the stoma's outline it is measured to. */
  gapMm: number;
  edge: number;
}

interface Line {
  from: Place;
  to: Place;
}

function placeAt(at: Point, stoma: Boundary): Place {
  const edge = stoma.nearestEdge(...at);
  const distanceMm = stoma.distanceToEdgeMm(edge, ...at);
  return { at, edge, gapMm: stoma.contains(...at) ? -distanceMm : distanceMm };
}

/**
 * The larger of `known` and the greatest signed gap along a line, the gap counted outward (side 1) or inward
 * (side -1). Halves the line while a part of it could still hold a greater one.
 */
function farthest(line: Line, stoma: Boundary, side: 1 | -1, known: number): number {
  const { from, to } = line;
  const best = Math.max(known, side * from.gapMm, side * to.gapMm);
  if (mostPossible(line, stoma) <= best + toleranceMm) return best;
  if (side * from.gapMm < 0 && side * to.gapMm < 0) {
    // Wholly on the other side, the greatest gap is the least distance, which is known exactly.
    const leastMm = stoma.distanceToLineMm(from.at, to.at);
    if (leastMm > 0) return Math.max(best, -leastMm);
  }
  const middle = placeAt(between(from.at, to.at), stoma);
  return farthest({ from: middle, to }, stoma, side, farthest({ from, to: middle }, stoma, side, best));
}

/**
 * No place on a line is farther from the outline than from any one of its edges, and the distance to an edge
 * is greatest at an end of the line.
 */
function mostPossible({ from, to }: Line, stoma: Boundary): number {
  const fromFar = Math.max(Math.abs(from.gapMm), stoma.distanceToEdgeMm(from.edge, ...to.at));
  const toFar = Math.max(Math.abs(to.gapMm), stoma.distanceToEdgeMm(to.edge, ...from.at));
  return Math.min(fromFar, toFar);
}

function between(a: Point, b: Point): Point {
  return [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
}
