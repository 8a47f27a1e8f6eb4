/** Terms after which a series of doubles has long stopped moving; large shapes need about their square root. */
const mostTerms = 5000;
const precision = 1e-14;

/**
 * Chance that a gamma variable of this shape and scale 1 is at least `x`.
 * @param shape above 0
 * @param x at least 0
 * @source DLMF 8.7.1 (series of the lower function) and 8.9.2 (continued fraction of the upper, Lentz's method)
 */
export function gammaTail(shape: number, x: number): number {
  if (x <= 0) return 1;
  const front = Math.exp(shape * Math.log(x) - x - logGamma(shape));
  return x < shape + 1 ? Math.max(0, 1 - front * lowerSeries(shape, x)) : front * upperFraction(shape, x);
}

function lowerSeries(shape: number, x: number): number {
  let term = 1 / shape;
  let sum = term;
  for (let n = 1; n < mostTerms && term > precision * sum; n++) {
    term *= x / (shape + n);
    sum += term;
  }
  return sum;
}

function upperFraction(shape: number, x: number): number {
  const tiny = 1e-300;
  let b = x + 1 - shape;
  let c = 1 / tiny;
  let d = 1 / b;
  let value = d;
  for (let n = 1; n < mostTerms; n++) {
    const a = -n * (n - shape);
    b += 2;
    d = 1 / away(a * d + b, tiny);
    c = away(b + a / c, tiny);
    value *= c * d;
    if (Math.abs(c * d - 1) < precision) break;
  }
  return value;
}

function away(value: number, least: number): number {
  return Math.abs(value) < least ? least : value;
}

/** Where Stirling's series below is exact to 1e-15. */
const stirlingFrom = 15;

/**
 * log Γ(x) for x above 0.
 * @source DLMF 5.11.1, and 5.5.1 to reach it
 */
export function logGamma(x: number): number {
  let product = 1;
  let z = x;
  while (z < stirlingFrom) {
    product *= z;
    z += 1;
  }
  const inverse2 = 1 / (z * z);
  const series = (1 / 12 - inverse2 * (1 / 360 - inverse2 * (1 / 1260 - inverse2 / 1680))) / z;
  return (z - 0.5) * Math.log(z) - z + 0.5 * Math.log(2 * Math.PI) + series - Math.log(product);
}
