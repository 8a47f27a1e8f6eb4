import { refuse } from "../fault.ts";
import type { Point } from "../outline/index.ts";
import { type Landmark, type LandmarkShape, pointsOf } from "./landmark.ts";

/** A landmark marked twice: in a picture of one posture, and on the body map. */
export interface SharedMark {
  seen: Point;
  onMap: Point;
}

/** From a posture's own picture, in mm by its scale, to the body map. */
export interface Registration {
  place(seen: Point): Point;
  /** How far each shared landmark lies from where it should, mm, in the order given. */
  residualsMm: readonly number[];
  /** Root of their mean square, and the largest. */
  rmsMm: number;
  maxMm: number;
}

/** Landmarks needed: one more than would fit exactly, so that there is a residual to go by. */
const fewest = { similarity: 3, affine: 4 } as const;

/**
 * Least-squares fit over shared landmarks: a similarity (turn, one scale, shift) or an affine map (each direction its
 * own scale: skin folds up more head to foot than across).
 *
 * @throws InputError with too few shared landmarks, or all of them in one place or on one line
 * @source Umeyama 1991, IEEE PAMI 13:376 (similarity, in closed form; no mirror image is allowed)
 */
export function registerPosture(
  marks: readonly SharedMark[],
  method: "similarity" | "affine",
  path = "marks",
): Registration {
  if (marks.length < fewest[method]) {
    refuse(
      path,
      "are too few to register a posture",
      marks.length,
      `at least ${fewest[method]} shared landmarks`,
    );
  }
  const [seenMiddle, mapMiddle] = [
    middle(marks.map(({ seen }) => seen)),
    middle(marks.map(({ onMap }) => onMap)),
  ];
  const pairs = marks.map(({ seen, onMap }) => ({
    from: less(seen, seenMiddle),
    to: less(onMap, mapMiddle),
  }));
  const [a, b, c, d] = method === "similarity" ? similarity(pairs, path) : affine(pairs, path);
  const place = (seen: Point): Point => {
    const [x, y] = less(seen, seenMiddle);
    return [mapMiddle[0] + a * x + b * y, mapMiddle[1] + c * x + d * y];
  };
  const residualsMm = marks.map(({ seen, onMap }) => {
    const [x, y] = place(seen);
    return Math.hypot(x - onMap[0], y - onMap[1]);
  });
  const rmsMm = Math.sqrt(residualsMm.reduce((sum, mm) => sum + mm * mm, 0) / marks.length);
  return { place, residualsMm, rmsMm, maxMm: Math.max(...residualsMm) };
}

/** A landmark of a posture's own picture as it lies on the body map. */
export function placedBy({ place }: Registration, landmark: Landmark): Landmark {
  const points = pointsOf(landmark.shape).map(place);
  const { shape } = landmark;
  const placed: LandmarkShape =
    "point" in shape ? { point: points[0]! } : "line" in shape ? { line: points } : { area: points };
  return { ...landmark, shape: placed };
}

type Pair = { from: Point; to: Point };
type Linear = readonly [number, number, number, number];

function similarity(pairs: readonly Pair[], path: string): Linear {
  const spread = sumOf(pairs, ({ from }) => from[0] ** 2 + from[1] ** 2);
  if (spread === 0) refuse(path, "all lie in one place", 0, "landmarks apart from each other");
  const along = sumOf(pairs, ({ from, to }) => from[0] * to[0] + from[1] * to[1]) / spread;
  const turned = sumOf(pairs, ({ from, to }) => from[0] * to[1] - from[1] * to[0]) / spread;
  return [along, -turned, turned, along];
}

/** Normal equations in two unknowns for each direction. */
function affine(pairs: readonly Pair[], path: string): Linear {
  const xx = sumOf(pairs, ({ from }) => from[0] ** 2);
  const yy = sumOf(pairs, ({ from }) => from[1] ** 2);
  const xy = sumOf(pairs, ({ from }) => from[0] * from[1]);
  const determinant = xx * yy - xy * xy;
  if (determinant <= 1e-9 * xx * yy || determinant === 0) {
    refuse(path, "all lie on one line", determinant, "landmarks that do not lie on one line");
  }
  const row = (direction: 0 | 1) => {
    const toX = sumOf(pairs, ({ from, to }) => from[0] * to[direction]);
    const toY = sumOf(pairs, ({ from, to }) => from[1] * to[direction]);
    return [(toX * yy - toY * xy) / determinant, (toY * xx - toX * xy) / determinant] as const;
  };
  return [...row(0), ...row(1)];
}

function sumOf(pairs: readonly Pair[], of: (pair: Pair) => number): number {
  return pairs.reduce((sum, pair) => sum + of(pair), 0);
}

function middle(points: readonly Point[]): Point {
  const sum = points.reduce<Point>(([x, y], [px, py]) => [x + px, y + py], [0, 0]);
  return [sum[0] / points.length, sum[1] / points.length];
}

function less([x, y]: Point, [ox, oy]: Point): Point {
  return [x - ox, y - oy];
}
