import type { Outline, Point } from "../../outline/index.ts";
import { directions, normals } from "./solid.ts";

/** How far an outline reaches in each direction, from the origin. */
export function reachOfOutline(outline: Outline): Float64Array {
  return Float64Array.from(normals, ([nx, ny]) => {
    let most = -Infinity;
    for (const [x, y] of outline) most = Math.max(most, nx * x + ny * y);
    return most;
  });
}

/** Each point of an outline drawn inward along its own normal by what stands beyond the base in that direction. */
export function drawnIn(outline: Outline, beyondMm: Float64Array): Outline {
  const count = outline.length;
  return outline.map(([x, y], at): Point => {
    const before = outline[(at + count - 2) % count]!;
    const after = outline[(at + 2) % count]!;
    const [tx, ty] = [after[0] - before[0], after[1] - before[1]];
    const length = Math.hypot(tx, ty) || 1;
    const [nx, ny] = [ty / length, -tx / length];
    const by = inDirection(beyondMm, Math.atan2(ny, nx));
    return [x - by * nx, y - by * ny];
  });
}

function inDirection(values: Float64Array, angle: number): number {
  const turn = angle / (2 * Math.PI);
  const place = (turn - Math.floor(turn)) * directions;
  const at = Math.floor(place) % directions;
  const share = place - Math.floor(place);
  return (1 - share) * values[at]! + share * values[(at + 1) % directions]!;
}
