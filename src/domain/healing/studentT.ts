import normalQuantile from "@stdlib/stats-base-dists-normal-quantile";

/** From here on Student's t is normal to better than a thousandth of a standard deviation. */
const NORMAL_FROM = 1000;

/**
 * Quantile of Student's t for a whole number of degrees of freedom; `share` between ½ and 1.
 * @source Abramowitz & Stegun 26.7.3 and 26.7.4, inverted by bisection
 */
export function studentQuantile(share: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom >= NORMAL_FROM) return normalQuantile(share, 0, 1);
  let low = 0;
  let high = 1;
  while (centralShare(high, degreesOfFreedom) < 2 * share - 1) high *= 2;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (centralShare(middle, degreesOfFreedom) < 2 * share - 1) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The chance that |t| is at most `t`. */
function centralShare(t: number, degreesOfFreedom: number): number {
  const angle = Math.atan(t / Math.sqrt(degreesOfFreedom));
  const cosine2 = Math.cos(angle) ** 2;
  const isOdd = degreesOfFreedom % 2 === 1;
  let term = isOdd ? Math.cos(angle) : 1;
  let series = degreesOfFreedom === 1 ? 0 : term;
  for (let k = isOdd ? 3 : 2; k <= degreesOfFreedom - 2; k += 2) {
    term *= ((k - 1) / k) * cosine2;
    series += term;
  }
  const sine = Math.sin(angle);
  return isOdd ? (2 / Math.PI) * (angle + sine * series) : sine * series;
}
