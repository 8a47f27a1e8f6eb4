import { encodedOf, lightOfByte } from "../colour/srgb.ts";
import { toPicture, type View } from "../mapping/place.ts";
import type { Pixels } from "../picture/pixels.ts";
import type { PaperLight } from "./paper.ts";
import type { Patch } from "./patch.ts";

/** A patch as a picture, head side up. */
export function patchPicture({ side, light }: Patch): Pixels {
  const data = new Uint8ClampedArray(4 * side * side).fill(255);
  for (let at = 0; at < side * side; at++) {
    for (let channel = 0; channel < 3; channel++) {
      data[4 * at + channel] = 255 * encodedOf(Math.min(1, light[channel]![at]!));
    }
  }
  return { width: side, height: side, data };
}

/**
 * The card and the skin round it seen from straight above, head side up, its paper white: for showing an outline over
 * it and for comparing one day with another. `halfMm` from the hole's middle to each side.
 */
export function seenFromAbove(
  { width, height, data }: Pixels,
  view: View,
  paper: PaperLight,
  { halfMm, pxPerMm }: { halfMm: number; pxPerMm: number },
): Pixels {
  const side = Math.round(2 * halfMm * pxPerMm);
  const seen = new Uint8ClampedArray(4 * side * side).fill(255);
  // One light for the whole picture: evening it out would change what a nurse looks for.
  const white = paper.at(0, 0).map((value) => Math.max(value, 0.02));
  for (let row = 0; row < side; row++) {
    for (let column = 0; column < side; column++) {
      const place = [(column + 0.5) / pxPerMm - halfMm, halfMm - (row + 0.5) / pxPerMm] as const;
      const [px, py] = toPicture(view, place).map(Math.round) as [number, number];
      if (px < 0 || py < 0 || px >= width || py >= height) continue;
      const [from, to] = [4 * (py * width + px), 4 * (row * side + column)];
      for (let channel = 0; channel < 3; channel++) {
        seen[to + channel] =
          255 * encodedOf(Math.min(1, (0.9 * lightOfByte(data[from + channel]!)) / white[channel]!));
      }
    }
  }
  return { width: side, height: side, data: seen };
}
