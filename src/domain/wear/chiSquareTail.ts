import normalCdf from "@stdlib/stats-base-dists-normal-cdf";

/**
 * Chance that a chi-square variable exceeds `x`. Built up from the tail itself, so that a very small p is
 * not lost as one minus a number close to one.
 * @param df whole degrees of freedom, at least 1
 * @source Q(df) = Q(df - 2) + (x/2)^(df/2 - 1) e^(-x/2) / Γ(df/2); Abramowitz and Stegun 26.4.8
 */
export function chiSquareTail(x: number, df: number): number {
  if (x <= 0) return 1;
  const half = x / 2;
  const odd = df % 2 === 1;
  let tail = odd ? 2 * normalCdf(-Math.sqrt(x), 0, 1) : Math.exp(-half);
  let term = odd ? (Math.exp(-half) * Math.sqrt(half)) / (Math.sqrt(Math.PI) / 2) : Math.exp(-half) * half;
  for (let k = odd ? 3 : 4; k <= df; k += 2) {
    tail += term;
    term *= half / (k / 2);
  }
  return tail;
}
