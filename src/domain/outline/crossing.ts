import type { Outline, Point } from "./shape.ts";

/** Where a closed line meets itself: edge n runs from point n to the next. */
export interface Crossing {
  kind: "crosses" | "touches" | "folds back on";
  edges: readonly [number, number];
  atMm: Point;
}

/**
 * The leftmost place at which an outline meets itself, or null. Edges are taken by their left end and tested
 * against those still open there, so that a line drawn round something costs about n log n.
 *
 * @param outline no point twice in a row
 */
export function findCrossing(outline: Outline): Crossing | null {
  const count = outline.length;
  const box = edgeBoxes(outline);
  const byLeftEnd = Array.from({ length: count }, (_, edge) => edge).sort(
    (a, b) => box.left[a]! - box.left[b]!,
  );
  const open: number[] = [];
  for (const edge of byLeftEnd) {
    let kept = 0;
    for (const other of open) {
      if (box.right[other]! < box.left[edge]!) continue;
      open[kept] = other;
      kept += 1;
      if (box.top[other]! < box.bottom[edge]! || box.bottom[other]! > box.top[edge]!) continue;
      const crossing = meeting(outline, Math.min(edge, other), Math.max(edge, other));
      if (crossing) return crossing;
    }
    open.length = kept;
    open.push(edge);
  }
  return null;
}

function edgeBoxes(outline: Outline) {
  const count = outline.length;
  const [left, right] = [new Float64Array(count), new Float64Array(count)];
  const [bottom, top] = [new Float64Array(count), new Float64Array(count)];
  for (let edge = 0; edge < count; edge += 1) {
    const [ax, ay] = outline[edge]!;
    const [bx, by] = outline[edge + 1 < count ? edge + 1 : 0]!;
    left[edge] = Math.min(ax, bx);
    right[edge] = Math.max(ax, bx);
    bottom[edge] = Math.min(ay, by);
    top[edge] = Math.max(ay, by);
  }
  return { left, right, bottom, top };
}

function meeting(outline: Outline, first: number, second: number): Crossing | null {
  const count = outline.length;
  if (second === first + 1) return fold(outline, first, second);
  if (first === 0 && second === count - 1) return fold(outline, second, first);
  return edgesMeet(outline, first, second);
}

/** Two edges that share a point meet elsewhere only if the second runs straight back over the first. */
function fold(outline: Outline, before: number, after: number): Crossing | null {
  const from = outline[before]!;
  const corner = outline[after]!;
  const to = outline[(after + 1) % outline.length]!;
  if (side(from, corner, to) !== 0) return null;
  const along = (corner[0] - from[0]) * (to[0] - corner[0]) + (corner[1] - from[1]) * (to[1] - corner[1]);
  return along < 0 ? { kind: "folds back on", edges: [before, after], atMm: corner } : null;
}

function edgesMeet(outline: Outline, first: number, second: number): Crossing | null {
  const a = outline[first]!;
  const b = outline[(first + 1) % outline.length]!;
  const c = outline[second]!;
  const d = outline[(second + 1) % outline.length]!;
  const [sideC, sideD, sideA, sideB] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)];
  const edges = [first, second] as const;
  if (((sideC > 0 && sideD < 0) || (sideC < 0 && sideD > 0)) && sideA > 0 !== sideB > 0 && sideA && sideB) {
    const along = sideC / (sideC - sideD);
    return { kind: "crosses", edges, atMm: [c[0] + along * (d[0] - c[0]), c[1] + along * (d[1] - c[1])] };
  }
  if (sideC === 0 && within(a, b, c)) return { kind: "touches", edges, atMm: c };
  if (sideD === 0 && within(a, b, d)) return { kind: "touches", edges, atMm: d };
  if (sideA === 0 && within(c, d, a)) return { kind: "touches", edges, atMm: a };
  if (sideB === 0 && within(c, d, b)) return { kind: "touches", edges, atMm: b };
  return null;
}

/** Above 0 where c lies left of the line from a to b, 0 on it. */
function side(a: Point, b: Point, c: Point): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/** Whether a point on the line through a and b lies between them. */
function within(a: Point, b: Point, point: Point): boolean {
  return (
    Math.min(a[0], b[0]) <= point[0] &&
    point[0] <= Math.max(a[0], b[0]) &&
    Math.min(a[1], b[1]) <= point[1] &&
    point[1] <= Math.max(a[1], b[1])
  );
}
