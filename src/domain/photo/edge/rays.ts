import type { Point } from "../../outline/index.ts";
import { patchHalfMm } from "../patch/patch.ts";
import type { Features } from "./features.ts";
import { direction } from "./polar.ts";

/** Running sums of a plane along rays from a middle: the sum between two radii is one subtraction. */
export interface Rays {
  count: number;
  /** Steps of each ray; the running sums of a ray have one more. */
  steps: number;
  stepMm: number;
  sums: Float64Array;
}

/** Samples a plane along rays, the first sample at `firstMm`; beyond the patch it is 0. */
export function alongRays(
  plane: Float32Array,
  { side, pxPerMm }: Pick<Features, "side" | "pxPerMm">,
  middle: Point,
  { count, steps, stepMm, firstMm }: { count: number; steps: number; stepMm: number; firstMm: number },
): Rays {
  const sums = new Float64Array(count * (steps + 1));
  for (let ray = 0; ray < count; ray++) {
    const [c, s] = direction(ray, count);
    const start = ray * (steps + 1);
    for (let k = 0; k < steps; k++) {
      const radius = firstMm + k * stepMm;
      const column = Math.round((middle[0] + radius * c + patchHalfMm) * pxPerMm - 0.5);
      const row = Math.round((patchHalfMm - middle[1] - radius * s) * pxPerMm - 0.5);
      const within = column >= 0 && row >= 0 && column < side && row < side;
      sums[start + k + 1] = sums[start + k]! + (within ? plane[row * side + column]! : 0);
    }
  }
  return { count, steps, stepMm, sums };
}
