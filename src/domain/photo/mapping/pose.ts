import type { PixelPoint } from "../picture/pixels.ts";
import type { Camera } from "./camera.ts";
import type { Homography } from "./homography.ts";
import { cross, dot, lengthOf, minus, scaled, type Vector } from "./rotation.ts";

/** Where a camera of known focal length stands that sees the flat card by this map (card to picture). */
export function poseFrom(toPicture: Homography, focalPx: number, middlePx: PixelPoint): Camera {
  const column = (at: number): Vector => {
    const w = toPicture[6 + at]!;
    return [
      (toPicture[at]! - middlePx[0] * w) / focalPx,
      (toPicture[3 + at]! - middlePx[1] * w) / focalPx,
      w,
    ];
  };
  const size = (lengthOf(column(0)) + lengthOf(column(1))) / 2;
  const sign = column(2)[2] < 0 ? -1 : 1;
  const first = unit(scaled(column(0), sign));
  const along = scaled(column(1), sign);
  const second = unit(minus(along, scaled(first, dot(first, along))));
  const third = cross(first, second);
  const rotation = [0, 1, 2].flatMap((row) => [first[row]!, second[row]!, third[row]!]);
  return { focalPx, middlePx, radial: 0, rotation, shiftMm: scaled(column(2), sign / size) };
}

function unit(vector: Vector): Vector {
  return scaled(vector, 1 / lengthOf(vector));
}
