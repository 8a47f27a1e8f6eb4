import quantile from "@stdlib/stats-base-dists-normal-quantile";
import { uniformFloat64 } from "pure-rand/distribution/uniformFloat64";
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { mersenne } from "pure-rand/generator/mersenne";

/** Draws that come out the same for the same seed. */
export interface Chance {
  /** Above or at 0, under 1. */
  share(): number;
  between(from: number, to: number): number;
  normal(mean: number, sd: number): number;
  /** A lifetime in days with this Weibull shape and scale. */
  lifetime(shape: number, scaleDays: number): number;
  oneOf<T>(choices: readonly T[]): T;
  bytes(count: number): Uint8Array;
}

export function chanceFrom(seed: number): Chance {
  const generator = mersenne(seed);
  const share = () => uniformFloat64(generator);
  return {
    share,
    between: (from, to) => from + (to - from) * share(),
    normal: (mean, sd) => quantile(Math.max(share(), Number.EPSILON), mean, sd),
    lifetime: (shape, scaleDays) => scaleDays * (-Math.log(1 - share())) ** (1 / shape),
    oneOf: (choices) => choices[uniformInt(generator, 0, choices.length - 1)]!,
    bytes: (count) => Uint8Array.from({ length: count }, () => uniformInt(generator, 0, 255)),
  };
}
