import { lightOfByte } from "../colour/srgb.ts";
import { toPicture, type View } from "../mapping/place.ts";
import type { PixelPoint, Pixels } from "../picture/pixels.ts";

/** The middle of the card seen from straight above: a square of skin and paper round the hole's centre. */
export interface Patch {
  /** Pixels a side. */
  side: number;
  pxPerMm: number;
  /** Light of each channel, one value a pixel, rows from the head side. */
  light: readonly [Float32Array, Float32Array, Float32Array];
  /** 1 where a channel is at its limit in the picture: brighter cannot be told from this. */
  full: Uint8Array;
}

export const patchHalfMm = 44;
/** Between the places whose pixel is computed; those between them are interpolated. */
const strideMm = 1;

/** Seen from above at `pxPerMm`. */
export function rectified({ width, height, data }: Pixels, view: View, pxPerMm: number): Patch {
  const side = Math.round(2 * patchHalfMm * pxPerMm);
  const light = [0, 1, 2].map(() => new Float32Array(side * side)) as [
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  const full = new Uint8Array(side * side);
  const [grid, across] = placesInPicture(view);
  for (let row = 0; row < side; row++) {
    for (let column = 0; column < side; column++) {
      const [x, y] = interpolated(grid, across, (column + 0.5) / pxPerMm, (row + 0.5) / pxPerMm);
      const left = Math.min(Math.max(Math.floor(x), 0), width - 2);
      const top = Math.min(Math.max(Math.floor(y), 0), height - 2);
      const fx = Math.min(Math.max(x - left, 0), 1);
      const fy = Math.min(Math.max(y - top, 0), 1);
      const upper = 4 * (top * width + left);
      const lower = upper + 4 * width;
      const to = row * side + column;
      for (let channel = 0; channel < 3; channel++) {
        const [a, b] = [data[upper + channel]!, data[upper + 4 + channel]!];
        const [c, d] = [data[lower + channel]!, data[lower + 4 + channel]!];
        light[channel]![to] =
          (1 - fy) * ((1 - fx) * lightOfByte(a) + fx * lightOfByte(b)) +
          fy * ((1 - fx) * lightOfByte(c) + fx * lightOfByte(d));
        if (a >= fullByte && b >= fullByte && c >= fullByte && d >= fullByte) full[to] = 1;
      }
    }
  }
  return { side, pxPerMm, light, full };
}

const fullByte = 252;

/** Pixels of the picture on a coarse grid from the patch's head left corner. */
function placesInPicture(view: View): [PixelPoint[], number] {
  const across = 2 * (patchHalfMm / strideMm) + 2;
  const grid: PixelPoint[] = [];
  for (let row = 0; row < across; row++) {
    for (let column = 0; column < across; column++) {
      grid.push(toPicture(view, [column * strideMm - patchHalfMm, patchHalfMm - row * strideMm]));
    }
  }
  return [grid, across];
}

function interpolated(grid: readonly PixelPoint[], across: number, xMm: number, yMm: number): PixelPoint {
  const column = Math.floor(xMm / strideMm);
  const row = Math.floor(yMm / strideMm);
  const [fx, fy] = [xMm / strideMm - column, yMm / strideMm - row];
  const at = row * across + column;
  const [a, b, c, d] = [grid[at]!, grid[at + 1]!, grid[at + across]!, grid[at + across + 1]!];
  return [
    (1 - fy) * ((1 - fx) * a[0] + fx * b[0]) + fy * ((1 - fx) * c[0] + fx * d[0]),
    (1 - fy) * ((1 - fx) * a[1] + fx * b[1]) + fy * ((1 - fx) * c[1] + fx * d[1]),
  ];
}

/** Card coordinates of a place in the patch. */
export function onCard({ pxPerMm }: Patch, column: number, row: number): [xMm: number, yMm: number] {
  return [(column + 0.5) / pxPerMm - patchHalfMm, patchHalfMm - (row + 0.5) / pxPerMm];
}

/** Place in the patch of card coordinates, in its pixels. */
export function inPatch({ pxPerMm }: Patch, xMm: number, yMm: number): PixelPoint {
  return [(xMm + patchHalfMm) * pxPerMm - 0.5, (patchHalfMm - yMm) * pxPerMm - 0.5];
}
