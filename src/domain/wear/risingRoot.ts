/**
 * Where a rising function crosses zero: Newton's step while it stays between the bounds, else the middle.
 * @param rising value and slope at x
 * @param low where the value is not above zero, and `high` where it is not below
 */
export function risingRoot(
  rising: (x: number) => { value: number; slope: number },
  low: number,
  high: number,
): number {
  let from = low;
  let to = high;
  let x = (low + high) / 2;
  for (let step = 0; step < 200 && to - from > 1e-12 * Math.max(1, Math.abs(x)); step++) {
    const { value, slope } = rising(x);
    if (value > 0) to = x;
    else from = x;
    const newton = x - value / slope;
    const next = newton > from && newton < to ? newton : (from + to) / 2;
    if (Math.abs(next - x) < 1e-13 * Math.max(1, Math.abs(x))) return next;
    x = next;
  }
  return x;
}
