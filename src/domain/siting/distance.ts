import type { Outline, Point, Region } from "../outline/index.ts";

/** Distance of a place from something, mm; positive outside it. */
export type DistanceMm = (x: number, y: number) => number;

/** From a point. */
export function fromPoint([px, py]: Point): DistanceMm {
  return (x, y) => Math.sqrt((x - px) ** 2 + (y - py) ** 2);
}

/** From a straight line between two points: square to it where its foot lies between them, else from the nearer end. */
export function fromSegment(a: Point, b: Point): DistanceMm {
  const [ax, ay] = a;
  const [dx, dy] = [b[0] - ax, b[1] - ay];
  const squared = dx * dx + dy * dy;
  if (squared === 0) return fromPoint(a);
  return (x, y) => Math.sqrt(squaredToSegment(x - ax, y - ay, dx, dy, squared));
}

/** From the nearest edge of a region, negative inside: as deep as it lies. */
export function fromRegion(region: Region): DistanceMm {
  const edges = edgesOf(region);
  return (x, y) => {
    let least = Number.POSITIVE_INFINITY;
    let inside = false;
    for (let at = 0; at < edges.length; at += 5) {
      const [toX, toY] = [x - edges[at]!, y - edges[at + 1]!];
      const [dx, dy] = [edges[at + 2]!, edges[at + 3]!];
      const squared = squaredToSegment(toX, toY, dx, dy, edges[at + 4]!);
      if (squared < least) least = squared;
      const above = toY >= 0;
      if (above !== toY >= dy && toX < (toY * dx) / dy) inside = !inside;
    }
    return inside ? -Math.sqrt(least) : Math.sqrt(least);
  };
}

/** Start, run and squared length of every edge that has one. */
function edgesOf(region: Region): Float64Array {
  const edges = region.flatMap((outline) =>
    outline.flatMap(([ax, ay], at) => {
      const [bx, by] = outline[(at + 1) % outline.length]!;
      const [dx, dy] = [bx - ax, by - ay];
      return dx === 0 && dy === 0 ? [] : [ax, ay, dx, dy, dx * dx + dy * dy];
    }),
  );
  return Float64Array.from(edges);
}

function squaredToSegment(toX: number, toY: number, dx: number, dy: number, squared: number): number {
  const along = (toX * dx + toY * dy) / squared;
  const share = along > 0 ? Math.min(along, 1) : 0;
  const [awayX, awayY] = [toX - share * dx, toY - share * dy];
  return awayX * awayX + awayY * awayY;
}

/** Beyond everything that is on a body map. */
const farMm = 1e5;

/** All that lies on the foot side of a line drawn across the body, its ends carried on level. */
export function footSideOf(line: readonly Point[]): Outline {
  const across = line[0]![0] <= line.at(-1)![0] ? line : [...line].reverse();
  return [
    [-farMm, -farMm],
    [farMm, -farMm],
    [farMm, across.at(-1)![1]],
    ...[...across].reverse(),
    [-farMm, across[0]![1]],
  ];
}

/** All that lies on the person's left (or right) of a line drawn from head to foot, its ends carried straight on. */
export function besideLine(line: readonly Point[], side: "left" | "right"): Outline {
  const upward = line[0]![1] <= line.at(-1)![1] ? line : [...line].reverse();
  const outMm = side === "left" ? farMm : -farMm;
  return [
    [outMm, -farMm],
    [outMm, farMm],
    [upward.at(-1)![0], farMm],
    ...[...upward].reverse(),
    [upward[0]![0], -farMm],
  ];
}
