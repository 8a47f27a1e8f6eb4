/** A picture as a canvas or a decoder gives it: rows from the top, four bytes a pixel (red, green, blue, opacity), sRGB. */
export interface Pixels {
  width: number;
  height: number;
  data: Uint8Array | Uint8ClampedArray;
}

/** One value a pixel, rows from the top. */
export interface Plane {
  width: number;
  height: number;
  values: Float32Array;
}

/** A place in a picture, in pixels: whole numbers are the middles of pixels, y grows downward. */
export type PixelPoint = readonly [xPx: number, yPx: number];
