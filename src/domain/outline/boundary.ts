import { edgeBands } from "./edgeBands.ts";
import { edgeBlocks } from "./edgeBlocks.ts";
import type { Outline, Point } from "./shape.ts";
import { trackOf } from "./track.ts";

/** An outline made ready for many questions of distance and inside-or-outside. */
export interface Boundary {
  /** The edge nearest to a place; edge n runs from point n to the next. */
  nearestEdge(x: number, y: number): number;
  distanceToEdgeMm(edge: number, x: number, y: number): number;
  distanceMm(x: number, y: number): number;
  /** Inside or not; a place on the line itself may be called either. */
  contains(x: number, y: number): boolean;
  /** Distance to the outline, negative inside it. */
  signedGapMm(x: number, y: number): number;
  /** Least distance between the outline and the straight line from a to b; 0 where they meet. */
  distanceToLineMm(a: Point, b: Point): number;
}

/** Prepares an outline; a question then looks at a few dozen edges instead of all. */
export function boundaryOf(outline: Outline): Boundary {
  const { xs, ys, count } = trackOf(outline);
  const blocks = once(() => edgeBlocks(xs, ys));
  const bands = once(() => edgeBands(xs, ys));

  function squaredToEdge(edge: number, x: number, y: number): number {
    const next = edge + 1 < count ? edge + 1 : 0;
    return squaredToLine(x, y, xs[edge]!, ys[edge]!, xs[next]!, ys[next]!);
  }

  function nearestEdge(x: number, y: number): number {
    const { nearestCentre, within, firstEdge, blockCount } = blocks();
    const first = nearestCentre(x, y);
    let nearest = 0;
    let squared = Number.POSITIVE_INFINITY;
    for (let turn = -1; turn < blockCount; turn += 1) {
      const block = turn < 0 ? first : turn;
      if (turn === first || !within(block, x, y, Math.sqrt(squared))) continue;
      const end = firstEdge(block + 1);
      for (let edge = firstEdge(block); edge < end; edge += 1) {
        const candidate = squaredToEdge(edge, x, y);
        if (candidate < squared) {
          squared = candidate;
          nearest = edge;
        }
      }
    }
    return nearest;
  }

  /** Nothing crosses: then an end of the line or a point of the outline is what lies nearest. */
  function distanceToLineMm(a: Point, b: Point): number {
    const { within, firstEdge, blockCount } = blocks();
    const [middleX, middleY, half] = [
      (a[0] + b[0]) / 2,
      (a[1] + b[1]) / 2,
      Math.hypot(b[0] - a[0], b[1] - a[1]) / 2,
    ];
    let least = Math.min(distanceMm(...a), distanceMm(...b));
    for (let block = 0; block < blockCount; block += 1) {
      if (!within(block, middleX, middleY, least + half)) continue;
      for (let edge = firstEdge(block); edge < firstEdge(block + 1); edge += 1) {
        const next = edge + 1 < count ? edge + 1 : 0;
        if (crosses(a, b, xs[edge]!, ys[edge]!, xs[next]!, ys[next]!)) return 0;
        least = Math.min(least, Math.sqrt(squaredToLine(xs[edge]!, ys[edge]!, a[0], a[1], b[0], b[1])));
      }
    }
    return least;
  }

  const distanceMm = (x: number, y: number) => Math.sqrt(squaredToEdge(nearestEdge(x, y), x, y));
  const contains = (x: number, y: number) => bands().contains(x, y);
  return {
    nearestEdge,
    distanceToEdgeMm: (edge, x, y) => Math.sqrt(squaredToEdge(edge, x, y)),
    distanceMm,
    contains,
    signedGapMm: (x, y) => (contains(x, y) ? -distanceMm(x, y) : distanceMm(x, y)),
    distanceToLineMm,
  };
}

function once<T>(make: () => T): () => T {
  let made: T | null = null;
  return () => {
    made ??= make();
    return made;
  };
}

function squaredToLine(x: number, y: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const along = ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy);
  const share = along > 0 ? Math.min(along, 1) : 0;
  const awayX = x - ax - share * dx;
  const awayY = y - ay - share * dy;
  return awayX * awayX + awayY * awayY;
}

function crosses(a: Point, b: Point, cx: number, cy: number, dx: number, dy: number): boolean {
  const [abX, abY, cdX, cdY] = [b[0] - a[0], b[1] - a[1], dx - cx, dy - cy];
  const sideC = abX * (cy - a[1]) - abY * (cx - a[0]);
  const sideD = abX * (dy - a[1]) - abY * (dx - a[0]);
  if (sideC > 0 === sideD > 0) return false;
  const sideA = cdX * (a[1] - cy) - cdY * (a[0] - cx);
  const sideB = cdX * (b[1] - cy) - cdY * (b[0] - cx);
  return sideA > 0 !== sideB > 0;
}
