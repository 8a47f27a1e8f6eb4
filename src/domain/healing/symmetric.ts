/** Below this share of its diagonal a pivot is rounding: the columns depend on one another. */
const SINGULAR = 1e-13;

/**
 * Lower triangle L with L·Lᵀ = the symmetric matrix given; null where it is not positive definite.
 * For the two or three unknowns of the curve.
 */
export function cholesky(matrix: readonly (readonly number[])[]): number[][] | null {
  const lower: number[][] = [];
  for (let i = 0; i < matrix.length; i++) {
    const row: number[] = [];
    for (let j = 0; j <= i; j++) {
      let rest = matrix[i]![j]!;
      for (let k = 0; k < j; k++) rest -= row[k]! * (lower[j]?.[k] ?? row[k]!);
      if (j < i) row.push(rest / lower[j]![j]!);
      else if (rest > SINGULAR * matrix[i]![i]!) row.push(Math.sqrt(rest));
      else return null;
    }
    lower.push(row);
  }
  return lower;
}

/** x with L·Lᵀ·x = b. */
export function solve(lower: readonly (readonly number[])[], b: readonly number[]): number[] {
  const x = [...b];
  for (let i = 0; i < x.length; i++) {
    for (let k = 0; k < i; k++) x[i]! -= lower[i]![k]! * x[k]!;
    x[i]! /= lower[i]![i]!;
  }
  for (let i = x.length - 1; i >= 0; i--) {
    for (let k = i + 1; k < x.length; k++) x[i]! -= lower[k]![i]! * x[k]!;
    x[i]! /= lower[i]![i]!;
  }
  return x;
}

/** The inverse of L·Lᵀ. */
export function inverse(lower: readonly (readonly number[])[]): number[][] {
  return lower.map((_, column) =>
    solve(
      lower,
      lower.map((_, row) => (row === column ? 1 : 0)),
    ),
  );
}
