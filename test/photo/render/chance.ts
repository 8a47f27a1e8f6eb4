import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

/** Chance with a seed: the same seed gives the same photograph. */
export interface Chance {
  between(low: number, high: number): number;
  normal(mean: number, spread: number): number;
  is(share: number): boolean;
  one<T>(of: readonly T[]): T;
}

export function chanceOf(seed: number): Chance {
  const generator = xoroshiro128plus(seed);
  for (let skip = 0; skip < 20; skip++) uniformFloat64(generator);
  const next = () => uniformFloat64(generator);
  return {
    between: (low, high) => low + (high - low) * next(),
    normal: (mean, spread) =>
      mean + spread * Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next()),
    is: (share) => next() < share,
    one: (of) => of[Math.floor(next() * of.length)]!,
  };
}

/** Smooth noise of a place, about -1 to 1: even values on a grid, blended. */
export function noiseAt(x: number, y: number, seed: number): number {
  const [left, foot] = [Math.floor(x), Math.floor(y)];
  const [fx, fy] = [eased(x - left), eased(y - foot)];
  const a = hashed(left, foot, seed);
  const b = hashed(left + 1, foot, seed);
  const c = hashed(left, foot + 1, seed);
  const d = hashed(left + 1, foot + 1, seed);
  return (1 - fy) * ((1 - fx) * a + fx * b) + fy * ((1 - fx) * c + fx * d);
}

function eased(share: number): number {
  return share * share * (3 - 2 * share);
}

function hashed(x: number, y: number, seed: number): number {
  let h = (Math.imul(x, 374761393) + Math.imul(y, 668265263) + Math.imul(seed, 2147483647)) | 0;
  h = Math.imul(h ^ (h >>> 13), 1274126177);
  return ((h ^ (h >>> 16)) >>> 0) / 2147483648 - 1;
}
