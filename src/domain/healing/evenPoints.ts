/**
 * `count` points spread evenly over the unit cube, the same on every call: first coordinate (i + ½)/count,
 * then the radical inverses to bases 3 and 5. They stand in for random draws, without the randomness. Base 2 is left
 * out: of every second point, which is what resampling to half as many keeps, it would cover one half only.
 * @source Hammersley, Monte Carlo methods for solving multivariable problems, Ann. N. Y. Acad. Sci. 1960;86:844
 */
export function evenPoints(count: number): [number, number, number][] {
  return Array.from({ length: count }, (_, i) => [
    (i + 0.5) / count,
    radicalInverse(i + 1, 3),
    radicalInverse(i + 1, 5),
  ]);
}

/** The digits of a whole number mirrored behind the point. */
function radicalInverse(whole: number, base: number): number {
  let value = 0;
  let place = 1 / base;
  for (let rest = whole; rest > 0; rest = Math.floor(rest / base)) {
    value += (rest % base) * place;
    place /= base;
  }
  return value;
}
