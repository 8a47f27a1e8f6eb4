import type { Outline, Point } from "./shape.ts";

/** A closed line as two columns of numbers, which the offset works on for speed. */
export interface Track {
  xs: ArrayLike<number>;
  ys: ArrayLike<number>;
  count: number;
}

export function trackOf(outline: Outline): Track {
  const count = outline.length;
  const xs = new Float64Array(count);
  const ys = new Float64Array(count);
  for (let at = 0; at < count; at += 1) {
    xs[at] = outline[at]![0];
    ys[at] = outline[at]![1];
  }
  return { xs, ys, count };
}

export function outlineFrom({ xs, ys, count }: Track): Outline {
  const outline: Point[] = new Array(count);
  for (let at = 0; at < count; at += 1) outline[at] = [xs[at]!, ys[at]!];
  return outline;
}
