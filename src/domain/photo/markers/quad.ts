import type { PixelPoint } from "../picture/pixels.ts";
import type { DarkPatch } from "./dark.ts";

/** Four corners, clockwise as the picture is seen. */
export type Quad = readonly [PixelPoint, PixelPoint, PixelPoint, PixelPoint];

/** Share of the rim that must lie on the sides: a finger or a shine over part of one is forgiven. */
const rimOnSides = 0.82;

/** The four-sided figure that a dark patch is, or null where it is none. */
export function quadOf({ rim }: DarkPatch): Quad | null {
  const middle: PixelPoint = [mean(rim.map(([x]) => x)), mean(rim.map(([, y]) => y))];
  const first = farthest(rim, (point) => distance(point, middle));
  const third = farthest(rim, (point) => distance(point, first));
  const second = farthest(rim, (point) => cross(first, third, point));
  const fourth = farthest(rim, (point) => -cross(first, third, point));
  const quad: Quad = [first, second, third, fourth];
  return isConvex(quad) && isEven(quad) && liesOnSides(rim, quad) ? clockwise(quad) : null;
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function farthest(points: readonly PixelPoint[], far: (point: PixelPoint) => number): PixelPoint {
  let best = points[0]!;
  let most = -Infinity;
  for (const point of points) {
    const value = far(point);
    if (value > most) [best, most] = [point, value];
  }
  return best;
}

function distance(a: PixelPoint, b: PixelPoint): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}

/** Twice the area of the triangle; positive where the points turn clockwise as seen (y grows downward). */
function cross(a: PixelPoint, b: PixelPoint, c: PixelPoint): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

function turns(quad: Quad): number[] {
  return quad.map((corner, at) => cross(corner, quad[(at + 1) % 4]!, quad[(at + 2) % 4]!));
}

function isConvex(quad: Quad): boolean {
  const all = turns(quad);
  return all.every((turn) => turn > 0) || all.every((turn) => turn < 0);
}

/** No side may be less than a third of the longest: a square card is never seen at so steep an angle and read. */
function isEven(quad: Quad): boolean {
  const sides = quad.map((corner, at) => distance(corner, quad[(at + 1) % 4]!));
  return Math.min(...sides) > Math.max(...sides) / 3;
}

function liesOnSides(rim: readonly PixelPoint[], quad: Quad): boolean {
  const size = Math.max(...quad.map((corner, at) => distance(corner, quad[(at + 1) % 4]!)));
  const allowed = 1.5 + 0.05 * size;
  const onSide = rim.filter((point) =>
    quad.some((corner, at) => offLine(corner, quad[(at + 1) % 4]!, point) <= allowed),
  );
  return onSide.length >= rimOnSides * rim.length;
}

function offLine(a: PixelPoint, b: PixelPoint, point: PixelPoint): number {
  return Math.abs(cross(a, b, point)) / distance(a, b);
}

function clockwise(quad: Quad): Quad {
  return turns(quad)[0]! > 0 ? quad : [quad[0], quad[3], quad[2], quad[1]];
}
