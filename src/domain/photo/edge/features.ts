import type { PaperLight } from "../patch/paper.ts";
import { onCard, type Patch } from "../patch/patch.ts";

/**
 * What tells mucosa from skin at each pixel of a patch: brightness and two shares of colour, on logarithms, so that a
 * shadow changes the brightness and leaves the colour. All are relative to the paper's light at that place.
 */
export interface Features {
  side: number;
  pxPerMm: number;
  /** ln of green. */
  brightness: Float32Array;
  /** ln of red over green, and of blue over green: mucosa is high in both beside the skin it stands on. */
  redness: Float32Array;
  blueness: Float32Array;
  /** Light over that of paper. */
  reflected: readonly [Float32Array, Float32Array, Float32Array];
}

/** Added to every light: noise in the dark must not become colour. */
const floor = 0.012;
/** Half a side of the square over which colours are averaged, twice. */
const smoothMm = 0.25;

export function featuresOf(patch: Patch, paper: PaperLight): Features {
  const { side, pxPerMm } = patch;
  const reflected = patch.light.map((plane) => plane.slice()) as [Float32Array, Float32Array, Float32Array];
  divideByPaper(patch, paper, reflected);
  const half = Math.max(1, Math.round(smoothMm * pxPerMm));
  const [red, green, blue] = reflected.map((plane) => blurred(plane, side, half)) as [
    Float32Array,
    Float32Array,
    Float32Array,
  ];
  const brightness = new Float32Array(side * side);
  const redness = new Float32Array(side * side);
  const blueness = new Float32Array(side * side);
  for (let at = 0; at < brightness.length; at++) {
    const lnGreen = Math.log(green[at]! + floor);
    brightness[at] = lnGreen;
    redness[at] = Math.log(red[at]! + floor) - lnGreen;
    blueness[at] = Math.log(blue[at]! + floor) - lnGreen;
  }
  return { side, pxPerMm, brightness, redness, blueness, reflected };
}

/** The paper's light changes slowly: it is asked for once for each block of pixels. */
function divideByPaper(patch: Patch, paper: PaperLight, planes: readonly Float32Array[]): void {
  const { side } = patch;
  const block = 8;
  for (let top = 0; top < side; top += block) {
    for (let left = 0; left < side; left += block) {
      const [x, y] = onCard(patch, left + block / 2, top + block / 2);
      const paperHere = paper.at(x, y);
      for (let row = top; row < Math.min(side, top + block); row++) {
        for (let column = left; column < Math.min(side, left + block); column++) {
          const at = row * side + column;
          for (let channel = 0; channel < 3; channel++) planes[channel]![at]! /= paperHere[channel]!;
        }
      }
    }
  }
}

/** Mean over a square, twice: close to a bell of standard deviation 0.8 of the square's half side. */
export function blurred(plane: Float32Array, side: number, half: number): Float32Array {
  let result = plane;
  for (let round = 0; round < 2; round++)
    result = transposedMean(transposedMean(result, side, half), side, half);
  return result;
}

/** Running mean along rows, written as columns. */
function transposedMean(plane: Float32Array, side: number, half: number): Float32Array {
  const result = new Float32Array(plane.length);
  for (let row = 0; row < side; row++) {
    const start = row * side;
    let sum = 0;
    for (let k = -half; k <= half; k++) sum += plane[start + clamped(k, side)]!;
    for (let column = 0; column < side; column++) {
      result[column * side + row] = sum / (2 * half + 1);
      sum += plane[start + clamped(column + half + 1, side)]! - plane[start + clamped(column - half, side)]!;
    }
  }
  return result;
}

function clamped(at: number, side: number): number {
  return at < 0 ? 0 : at >= side ? side - 1 : at;
}
