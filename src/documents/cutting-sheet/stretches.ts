import { boundaryOf, type Outline, type Point } from "../../domain/outline/index.ts";

/** The stretches of a closed line that keep clear of another by more than `clearMm`. */
export function stretchesClearOf(outline: Outline, other: Outline, clearMm: number): Point[][] {
  const boundary = boundaryOf(other);
  const clear = outline.map(([x, y]) => boundary.distanceMm(x, y) > clearMm);
  const start = clear.indexOf(false);
  if (start === -1) return [[...outline, outline[0]!]];
  const stretches: Point[][] = [[]];
  for (let step = 1; step <= outline.length; step++) {
    const at = (start + step) % outline.length;
    if (clear[at]) stretches.at(-1)!.push(outline[at]!);
    else stretches.push([]);
  }
  return stretches.filter((stretch) => stretch.length > 1);
}
