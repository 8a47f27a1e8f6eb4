import { patchHalfMm } from "../patch/patch.ts";
import type { Features } from "./features.ts";
import { direction, type PolarOutline } from "./polar.ts";

const stepMm = 0.15;
const farthestMm = 8;
/** A ray may be moved until the likelihood it crosses speaks against it by this much (nats times mm). */
const cheap = 0.8;

/**
 * How far each ray could be moved inward and outward before the colours it crosses speak clearly against it: half of
 * the whole play, in mm. An edge between two plain colours has little, a halo or a shadow much.
 */
export function slackMm(
  likeness: Float32Array,
  { side, pxPerMm }: Features,
  outline: PolarOutline,
): Float64Array {
  const [mx, my] = outline.middle;
  const rays = outline.radiiMm.length;
  const at = (radius: number, c: number, s: number): number => {
    const column = Math.round((mx + radius * c + patchHalfMm) * pxPerMm - 0.5);
    const row = Math.round((patchHalfMm - my - radius * s) * pxPerMm - 0.5);
    return column < 0 || row < 0 || column >= side || row >= side ? 0 : likeness[row * side + column]!;
  };
  return outline.radiiMm.map((radius, ray) => {
    const [c, s] = direction(ray, rays);
    const play = (sign: number) => {
      let against = 0;
      for (let off = stepMm; off < farthestMm; off += stepMm) {
        if (sign < 0 && off >= radius) return off;
        against += -sign * at(radius + sign * off, c, s) * stepMm;
        if (against > cheap) return off;
      }
      return farthestMm;
    };
    return (play(1) + play(-1)) / 2;
  });
}
