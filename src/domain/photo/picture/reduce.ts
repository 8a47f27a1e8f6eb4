import type { Pixels } from "./pixels.ts";

/** A picture made smaller by a whole number of pixels a side, and that number. */
export interface Reduced {
  pixels: Pixels;
  factor: number;
}

/**
 * Averages blocks of pixels until the longer side is at most `longestPx`. Averaging keeps edges where they are, so
 * nothing is lost that the measurement needs, and noise and time go down.
 */
export function reduced(picture: Pixels, longestPx: number): Reduced {
  const factor = Math.max(1, Math.ceil(Math.max(picture.width, picture.height) / longestPx));
  return factor === 1 ? { pixels: picture, factor } : { pixels: blockMeans(picture, factor), factor };
}

function blockMeans({ width, height, data }: Pixels, factor: number): Pixels {
  const [across, down] = [Math.floor(width / factor), Math.floor(height / factor)];
  const means = new Uint8ClampedArray(across * down * 4);
  const share = 1 / (factor * factor);
  for (let y = 0; y < down; y++) {
    for (let x = 0; x < across; x++) {
      let [red, green, blue] = [0, 0, 0];
      for (let row = 0; row < factor; row++) {
        let at = 4 * ((y * factor + row) * width + x * factor);
        for (let column = 0; column < factor; column++, at += 4) {
          red += data[at]!;
          green += data[at + 1]!;
          blue += data[at + 2]!;
        }
      }
      const to = 4 * (y * across + x);
      means[to] = red * share;
      means[to + 1] = green * share;
      means[to + 2] = blue * share;
      means[to + 3] = 255;
    }
  }
  return { width: across, height: down, data: means };
}
