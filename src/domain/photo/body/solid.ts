import type { Point } from "../../outline/index.ts";
import { standsAt } from "../mapping/camera.ts";
import type { View } from "../mapping/place.ts";
import type { Vector } from "../mapping/rotation.ts";
import { inSpace, whereMet } from "../mapping/surface.ts";

/**
 * A stoma as a stack of slices of the shape of its base: at the share t of its height a slice has the share
 * (1 − t^fullness)^(1/fullness) · (1 + overhang·sin(π·t)) of the base's size. Fullness 2 is half an egg, higher ones
 * come nearer to a cylinder; overhang makes a mushroom.
 */
export interface Solid {
  heightMm: number;
  fullness: number;
  overhang: number;
}

/** Directions in which the width of outlines is compared, counterclockwise from x. */
export const directions = 48;
export const normals: readonly Point[] = Array.from({ length: directions }, (_, k): Point => {
  const angle = (2 * Math.PI * k) / directions;
  return [Math.cos(angle), Math.sin(angle)];
});

const slices = [0.15, 0.3, 0.45, 0.58, 0.7, 0.8, 0.88, 0.95];

/** Where the camera sees on the skin what stands `heightMm` above a place. */
export function projected(view: View, camera: Vector, place: Point, heightMm: number): Point | null {
  const [x, y, z] = inSpace(view.surface, place, heightMm);
  return whereMet(view.surface, camera, [x - camera[0], y - camera[1], z - camera[2]]);
}

/**
 * How far the solid's silhouette on the skin reaches beyond its base in each direction, 0 or more. `reach` is how far
 * the base reaches from its middle (its support), `middle` its middle.
 */
export function beyondBase(view: View, middle: Point, reach: Float64Array, solid: Solid): Float64Array {
  const camera = standsAt(view.camera);
  const beyond = new Float64Array(directions);
  const touching = touchPoints(reach);
  for (const t of slices) {
    const share =
      (1 - t ** solid.fullness) ** (1 / solid.fullness) * (1 + solid.overhang * Math.sin(Math.PI * t));
    for (let k = 0; k < directions; k++) {
      const [bx, by] = touching[k]!;
      const seen = projected(
        view,
        camera,
        [middle[0] + share * bx, middle[1] + share * by],
        t * solid.heightMm,
      );
      if (seen === null) continue;
      const [nx, ny] = normals[k]!;
      const further = (seen[0] - middle[0]) * nx + (seen[1] - middle[1]) * ny - reach[k]!;
      if (further > beyond[k]!) beyond[k] = further;
    }
  }
  return beyond;
}

/** The point of a convex outline that lies farthest in each direction: h·n + h′·t. */
function touchPoints(reach: Float64Array): Point[] {
  const step = (2 * Math.PI) / directions;
  return normals.map(([nx, ny], k): Point => {
    const slope = (reach[(k + 1) % directions]! - reach[(k + directions - 1) % directions]!) / (2 * step);
    return [reach[k]! * nx - slope * ny, reach[k]! * ny + slope * nx];
  });
}
