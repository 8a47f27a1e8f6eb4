/** Every forecast states the same level: 80 %, a tenth left out on either side. */
export const LOWER_80 = 0.1;
export const UPPER_80 = 0.9;

/** A middle with its 80 % limits. */
export interface Limits {
  estimate: number;
  lower80: number;
  upper80: number;
}

/** Median and 80 % limits of equally likely values, infinite ones among them. */
export function limitsOf(values: ArrayLike<number>): Limits {
  const sorted = new Float64Array(values).sort();
  return {
    estimate: quantile(sorted, 0.5),
    lower80: quantile(sorted, LOWER_80),
    upper80: quantile(sorted, UPPER_80),
  };
}

/** Value below which `share` of the sorted values lie, halfway between neighbours (Hyndman & Fan's definition 2). */
function quantile(sorted: Float64Array, share: number): number {
  const at = share * sorted.length;
  const above = sorted[Math.min(Math.floor(at), sorted.length - 1)]!;
  const below = sorted[Math.ceil(at) - 1]!;
  return above === below ? above : (above + below) / 2;
}
