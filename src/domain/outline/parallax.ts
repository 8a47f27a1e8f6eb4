import { refuse } from "../fault.ts";

/**
 * How much larger than at the skin a thing looks that stands above it: d / (d − h), for a camera that looks straight
 * down from `distanceMm` above the skin.
 * @throws InputError where the camera is not above the thing
 * @source similar triangles
 */
export function magnification(heightMm: number, distanceMm: number): number {
  if (!(heightMm < distanceMm)) {
    refuse("distanceMm", "is not above what it looks at", distanceMm, `more than ${heightMm}`);
  }
  return distanceMm / (distanceMm - heightMm);
}
