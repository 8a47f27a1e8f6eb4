import { valueAt } from "../picture/grey.ts";
import type { PixelPoint, Plane } from "../picture/pixels.ts";
import type { Quad } from "./quad.ts";

/** A straight line: points p with nx·px + ny·py = c, the normal of length 1. */
interface Line {
  nx: number;
  ny: number;
  c: number;
}

/** Where along each side the edge is looked for, from corner to corner. */
const along = Array.from({ length: 24 }, (_, at) => 0.1 + (0.8 * at) / 23);
/** Pixels between the values of a profile. */
const stepPx = 0.5;

/**
 * Corners of a black marker on white paper to a small part of a pixel: a line through the steepest places of each
 * side, and the points where the lines meet. Null where a side shows no clear edge.
 */
export function sharpCorners(light: Plane, quad: Quad): { corners: Quad; edgeSpreadPx: number } | null {
  const found = quad.map((corner, at) => sideLine(light, corner, quad[(at + 1) % 4]!));
  if (found.some((side) => side === null)) return null;
  const sides = found as { line: Line; spreadPx: number }[];
  const corners = sides.map(({ line }, at) => meeting(sides[(at + 3) % 4]!.line, line));
  if (corners.some((corner) => corner === null)) return null;
  const edgeSpreadPx = sides.reduce((sum, { spreadPx }) => sum + spreadPx, 0) / 4;
  return { corners: corners as unknown as Quad, edgeSpreadPx };
}

function sideLine(light: Plane, from: PixelPoint, to: PixelPoint) {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(dx, dy);
  // Clockwise corners on a picture whose y grows downward: the outside lies to the left of the way.
  const [outX, outY] = [dy / length, -dx / length];
  // A module is a sixth of the side; the paper outside is a little wider.
  const reachPx = Math.max(2, Math.min(0.14 * length, 9));
  const edges = along.flatMap((share) => {
    const [x, y] = [from[0] + share * dx, from[1] + share * dy];
    const edge = steepest(light, [x, y], [outX, outY], reachPx);
    return edge === null
      ? []
      : [{ at: [x + edge.offPx * outX, y + edge.offPx * outY] as PixelPoint, ...edge }];
  });
  if (edges.length < along.length / 2) return null;
  return { line: lineThrough(edges), spreadPx: median(edges.map(({ spreadPx }) => spreadPx)) };
}

/** Where light rises most along a profile, and how wide the rise is (standard deviation in pixels). */
function steepest(light: Plane, [x, y]: PixelPoint, [outX, outY]: PixelPoint, reachPx: number) {
  const count = Math.ceil(reachPx / stepPx);
  const rises: number[] = [];
  let last = valueAt(light, x - (count + 1) * stepPx * outX, y - (count + 1) * stepPx * outY);
  for (let k = -count; k <= count; k++) {
    const next = valueAt(light, x + k * stepPx * outX, y + k * stepPx * outY);
    rises.push(next - last);
    last = next;
  }
  let top = 0;
  for (let k = 1; k < rises.length; k++) if (smoothAt(rises, k) > smoothAt(rises, top)) top = k;
  if (smoothAt(rises, top) <= 0) return null;
  let [weight, first, second] = [0, 0, 0];
  const half = 5;
  for (let k = Math.max(0, top - half); k <= Math.min(rises.length - 1, top + half); k++) {
    const rise = Math.max(0, rises[k]!);
    weight += rise;
    first += rise * k;
    second += rise * k * k;
  }
  const mean = first / weight;
  const spreadPx = stepPx * Math.sqrt(Math.max(0, second / weight - mean * mean));
  return { offPx: (mean - count - 0.5) * stepPx, spreadPx, weight };
}

function smoothAt(values: readonly number[], at: number): number {
  return (values[at - 1] ?? 0) + 2 * values[at]! + (values[at + 1] ?? 0);
}

/** Total least squares, in rounds that trust a point less the further it lies off. */
function lineThrough(edges: readonly { at: PixelPoint; weight: number }[]): Line {
  let trust = edges.map(() => 1);
  let line: Line = { nx: 1, ny: 0, c: 0 };
  for (let round = 0; round < 5; round++) {
    line = weightedLine(
      edges.map(({ at }) => at),
      trust,
    );
    const off = edges.map(({ at: [x, y] }) => Math.abs(line.nx * x + line.ny * y - line.c));
    const scale = Math.max(0.05, 1.5 * median(off));
    trust = off.map((distance) => 1 / (1 + (distance / scale) ** 2) ** 2);
  }
  return line;
}

function weightedLine(points: readonly PixelPoint[], weights: readonly number[]): Line {
  let [sum, mx, my] = [0, 0, 0];
  points.forEach(([x, y], at) => {
    sum += weights[at]!;
    mx += weights[at]! * x;
    my += weights[at]! * y;
  });
  mx /= sum;
  my /= sum;
  let [xx, xy, yy] = [0, 0, 0];
  points.forEach(([x, y], at) => {
    xx += weights[at]! * (x - mx) ** 2;
    xy += weights[at]! * (x - mx) * (y - my);
    yy += weights[at]! * (y - my) ** 2;
  });
  const angle = 0.5 * Math.atan2(2 * xy, xx - yy);
  const [nx, ny] = [-Math.sin(angle), Math.cos(angle)];
  return { nx, ny, c: nx * mx + ny * my };
}

function meeting(a: Line, b: Line): PixelPoint | null {
  const det = a.nx * b.ny - a.ny * b.nx;
  if (Math.abs(det) < 0.2) return null;
  return [(a.c * b.ny - b.c * a.ny) / det, (a.nx * b.c - b.nx * a.c) / det];
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1]!;
}
