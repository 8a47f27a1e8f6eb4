/**
 * x with A·x = b for a symmetric positive definite A (rows one after the other), by Cholesky; null where A is not.
 */
export function solveSymmetric(matrix: Float64Array, right: Float64Array): Float64Array | null {
  const n = right.length;
  const lower = matrix.slice();
  for (let row = 0; row < n; row++) {
    for (let column = 0; column <= row; column++) {
      let rest = lower[row * n + column]!;
      for (let k = 0; k < column; k++) rest -= lower[row * n + k]! * lower[column * n + k]!;
      if (column < row) lower[row * n + column] = rest / lower[column * n + column]!;
      else if (rest > 0) lower[row * n + row] = Math.sqrt(rest);
      else return null;
    }
  }
  const x = right.slice();
  for (let row = 0; row < n; row++) {
    for (let k = 0; k < row; k++) x[row]! -= lower[row * n + k]! * x[k]!;
    x[row]! /= lower[row * n + row]!;
  }
  for (let row = n - 1; row >= 0; row--) {
    for (let k = row + 1; k < n; k++) x[row]! -= lower[k * n + row]! * x[k]!;
    x[row]! /= lower[row * n + row]!;
  }
  return x;
}
