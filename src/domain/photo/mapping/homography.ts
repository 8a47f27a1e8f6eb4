import { refuse } from "../../fault.ts";
import { leastSquares } from "../fit/levenbergMarquardt.ts";
import { solveSymmetric } from "../fit/solve.ts";

/** A place in either plane; the caller knows which. */
export type Place = readonly [x: number, y: number];

/** Rows one after the other, the last figure 1: (x, y, 1) → (a·x + b·y + c, d·x + e·y + f) / (g·x + h·y + 1). */
export type Homography = readonly number[];

/** A place and where it is found in the other plane. */
export interface Pair {
  from: Place;
  to: Place;
}

/** Maps a place. */
export function mapped(matrix: Homography, [x, y]: Place): Place {
  const [a, b, c, d, e, f, g, h, i] = matrix as number[];
  const w = g! * x + h! * y + i!;
  return [(a! * x + b! * y + c!) / w, (d! * x + e! * y + f!) / w];
}

/**
 * The projective map that brings each `from` closest to its `to`: a linear solution on coordinates moved and scaled
 * to unit size, then least squares of the distances at `to`.
 * @throws InputError with fewer than four pairs, or where they lie so that no map is determined
 * @source Hartley & Zisserman, Multiple View Geometry, 2nd ed. 2004, sections 4.1 and 4.4 (from memory)
 */
export function homographyOf(pairs: readonly Pair[]): Homography {
  if (pairs.length < 4) refuse("pairs", "are too few", pairs.length, "at least 4");
  const [from, to] = [unitSize(pairs.map((pair) => pair.from)), unitSize(pairs.map((pair) => pair.to))];
  const normalised = pairs.map((_, at) => ({ from: from.places[at]!, to: to.places[at]! }));
  const linear = linearSolution(normalised);
  if (linear === null)
    return refuse("pairs", "lie on one line", pairs.length, "four with no three on a line");
  return composed(to.back, composed(refined(linear, normalised), from.there));
}

/** Moves the mean to 0 and the mean distance from it to 1. */
function unitSize(places: readonly Place[]) {
  const n = places.length;
  const [mx, my] = [0, 1].map((axis) => places.reduce((sum, place) => sum + place[axis]!, 0) / n) as [
    number,
    number,
  ];
  const size = places.reduce((sum, [x, y]) => sum + Math.hypot(x - mx, y - my), 0) / n || 1;
  return {
    places: places.map(([x, y]): Place => [(x - mx) / size, (y - my) / size]),
    there: [1 / size, 0, -mx / size, 0, 1 / size, -my / size, 0, 0, 1],
    back: [size, 0, mx, 0, size, my, 0, 0, 1],
  };
}

/** Least squares of the equations made linear by the common divisor. */
function linearSolution(pairs: readonly Pair[]): number[] | null {
  const normal = new Float64Array(64);
  const right = new Float64Array(8);
  const add = (row: readonly number[], value: number) => {
    for (let i = 0; i < 8; i++) {
      for (let j = 0; j < 8; j++) normal[8 * i + j]! += row[i]! * row[j]!;
      right[i]! += row[i]! * value;
    }
  };
  for (const { from, to } of pairs) {
    const [x, y] = from;
    const [u, v] = to;
    add([x, y, 1, 0, 0, 0, -u * x, -u * y], u);
    add([0, 0, 0, x, y, 1, -v * x, -v * y], v);
  }
  const solution = solveSymmetric(normal, right);
  return solution?.every(Number.isFinite) ? [...solution] : null;
}

function refined(start: readonly number[], pairs: readonly Pair[]): Homography {
  const { unknowns } = leastSquares(
    start,
    (h, into) => {
      const matrix = [...h, 1];
      pairs.forEach(({ from, to }, at) => {
        const [u, v] = mapped(matrix, from);
        into[2 * at] = u - to[0];
        into[2 * at + 1] = v - to[1];
      });
    },
    { count: 2 * pairs.length, steps: new Array(8).fill(1e-5), settled: 1e-15 },
  );
  return [...unknowns, 1];
}

/** First `then`'s right factor, then its left: the matrix product left · right, divided by its last figure. */
export function composed(left: Homography, right: Homography): Homography {
  const product = Array.from({ length: 9 }, (_, at) => {
    const [row, column] = [Math.floor(at / 3), at % 3];
    return [0, 1, 2].reduce((sum, k) => sum + left[3 * row + k]! * right[3 * k + column]!, 0);
  });
  return product.map((value) => value / product[8]!);
}
