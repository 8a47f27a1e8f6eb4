import type { PixelPoint } from "../picture/pixels.ts";
import { type Rotation, turned, turnedBack, type Vector } from "./rotation.ts";

/** A camera and where it stands: space is the card's (mm), the camera looks along its own z, its y runs down. */
export interface Camera {
  focalPx: number;
  /** Where the optical axis meets the picture. */
  middlePx: PixelPoint;
  /** First radial term of the lens: a place at distance r from the axis (in focal lengths) is seen at r·(1 + k·r²). */
  radial: number;
  rotation: Rotation;
  shiftMm: Vector;
}

/** Where a place in space is seen. */
export function seenAt(camera: Camera, place: Vector): PixelPoint {
  const [x, y, z] = turned(camera.rotation, place);
  const depth = z + camera.shiftMm[2];
  const [u, v] = [(x + camera.shiftMm[0]) / depth, (y + camera.shiftMm[1]) / depth];
  const out = camera.focalPx * (1 + camera.radial * (u * u + v * v));
  return [camera.middlePx[0] + out * u, camera.middlePx[1] + out * v];
}

/** Direction in the card's space of the ray that a pixel sees. */
export function rayOf(camera: Camera, [px, py]: PixelPoint): Vector {
  const [dx, dy] = [(px - camera.middlePx[0]) / camera.focalPx, (py - camera.middlePx[1]) / camera.focalPx];
  let [u, v] = [dx, dy];
  for (let round = 0; round < 4 && camera.radial !== 0; round++) {
    const out = 1 + camera.radial * (u * u + v * v);
    [u, v] = [dx / out, dy / out];
  }
  return turnedBack(camera.rotation, [u, v, 1]);
}

/** Where the camera stands. */
export function standsAt(camera: Camera): Vector {
  const [x, y, z] = turnedBack(camera.rotation, camera.shiftMm);
  return [-x, -y, -z];
}
