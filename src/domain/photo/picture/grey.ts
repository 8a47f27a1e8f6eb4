import { lightOfByte } from "../colour/srgb.ts";
import type { Pixels, Plane } from "./pixels.ts";

/** Weights of the channels in luminance. @source IEC 61966-2-1 (ITU-R BT.709 primaries) */
const [redShare, greenShare, blueShare] = [0.2126, 0.7152, 0.0722];

/** Grey as the picture is encoded, 0 to 255: for finding dark shapes in bright ones. */
export function greyOf({ width, height, data }: Pixels): Uint8Array {
  const grey = new Uint8Array(width * height);
  for (let at = 0, from = 0; at < grey.length; at++, from += 4) {
    grey[at] = redShare * data[from]! + greenShare * data[from + 1]! + blueShare * data[from + 2]! + 0.5;
  }
  return grey;
}

/** Light that each pixel took in, 0 to 1: edges lie where the lens put them, not where the encoding moves them. */
export function lightPlane({ width, height, data }: Pixels): Plane {
  const values = new Float32Array(width * height);
  for (let at = 0, from = 0; at < values.length; at++, from += 4) {
    values[at] =
      redShare * lightOfByte(data[from]!) +
      greenShare * lightOfByte(data[from + 1]!) +
      blueShare * lightOfByte(data[from + 2]!);
  }
  return { width, height, values };
}

/** Value between pixels, bilinear; beyond the border the nearest pixel counts. */
export function valueAt({ width, height, values }: Plane, x: number, y: number): number {
  const left = Math.min(Math.max(Math.floor(x), 0), width - 2);
  const top = Math.min(Math.max(Math.floor(y), 0), height - 2);
  const across = Math.min(Math.max(x - left, 0), 1);
  const down = Math.min(Math.max(y - top, 0), 1);
  const at = top * width + left;
  const upper = values[at]! * (1 - across) + values[at + 1]! * across;
  const lower = values[at + width]! * (1 - across) + values[at + width + 1]! * across;
  return upper * (1 - down) + lower * down;
}
