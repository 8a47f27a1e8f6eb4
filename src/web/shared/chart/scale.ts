/** From a value to a place in pixels. */
export type Scale = (value: number) => number;

/** Straight from one range to another. */
export function scale([from, to]: readonly [number, number], [start, end]: readonly [number, number]): Scale {
  const slope = (end - start) / (to - from || 1);
  return (value) => start + (value - from) * slope;
}

/** Multiples of a step of 1, 2 or 5 times a power of ten within a range, at most `most` of them. */
export function ticks([from, to]: readonly [number, number], most: number): number[] {
  const rough = (to - from) / Math.max(1, most);
  const power = 10 ** Math.floor(Math.log10(rough || 1));
  const step = [1, 2, 5, 10].map((times) => times * power).find((each) => each >= rough) ?? power * 10;
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => (first + index) * step);
}
