import { refuse } from "../fault.ts";
import { distanceMm, perimeterMm } from "./polygon.ts";
import { type Outline, outlineOf, type Point } from "./shape.ts";
import { evenlySpaced } from "./spacing.ts";

/** A drawn stroke made into an outline, and what was done to it. */
export interface Tracing {
  outline: Outline;
  /** Distance between the two places of the stroke that were joined. */
  gapMm: number;
  /** Root mean square of what smoothing moved the stroke by. */
  jitterMm: number;
}

/** Waves along the stroke shorter than this are taken for jitter of the hand, mm. */
const jitterWaveMm = 4;
/** Steepness of the border between shape and jitter: at half the wave length 1/257 of it is left. */
const steepness = 8;
/** Points of the outline lie about this far apart, mm. */
const stepMm = 0.4;
const pointLimits = { least: 72, most: 720 };

/**
 * A hand-drawn stroke round a stoma as an outline. Its ends are joined where its first and its last third
 * come nearest, and the tails beyond are dropped; then waves under 4 mm along the line are taken out.
 *
 * The size stays: what is left of a wave is 1/(1 + (4 mm / wave)^8) of it. Measured: round strokes of 10 to
 * 28 mm and an oval of 35 × 25 mm keep both calliper widths to 0.004 mm, an infant's oval of 10 × 6 mm to
 * 0.04 mm; area to 0.2 %. Corners are rounded to about a millimetre.
 *
 * @throws InputError where the stroke has too few points or meets itself away from its ends
 */
export function smoothTracing(stroke: readonly Point[]): Tracing {
  const points = stroke.filter((point, at) => at === 0 || distanceMm(point, stroke[at - 1]!) > 0);
  if (points.length < 3) refuse("stroke", "has too few different points", points.length, "at least 3");
  const { loop, gapMm } = joined(points);
  const wanted = Math.round(perimeterMm(loop) / stepMm);
  const count = Math.min(pointLimits.most, Math.max(pointLimits.least, wanted));
  const even = evenlySpaced(loop, perimeterMm(loop) / count);
  const smooth = withoutShortWaves(even, perimeterMm(loop));
  const squares = smooth.map((point, at) => distanceMm(point, even[at]!) ** 2);
  const jitterMm = Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / count);
  return { outline: outlineOf({ outline: smooth }, "stroke"), gapMm, jitterMm };
}

/** Cuts the stroke where its first and last third come nearest; of equal distances the outermost. */
function joined(points: Outline): { loop: Outline; gapMm: number } {
  const third = Math.max(1, Math.floor(points.length / 3));
  let [first, last, gapMm] = [0, points.length - 1, distanceMm(points[0]!, points.at(-1)!)];
  for (let start = 0; start < third; start += 1) {
    for (let end = points.length - 1; end >= points.length - third; end -= 1) {
      const apart = distanceMm(points[start]!, points[end]!);
      if (apart < gapMm) [first, last, gapMm] = [start, end, apart];
    }
  }
  return { loop: points.slice(first, gapMm === 0 ? last : last + 1), gapMm };
}

/** The Fourier series of the closed line x + iy over its length, each wave weighed by how long it is. */
function withoutShortWaves(points: Outline, lengthMm: number): Outline {
  const count = points.length;
  const longest = Math.min(Math.floor((count - 1) / 2), Math.ceil((4 * lengthMm) / jitterWaveMm));
  const smooth = points.map((): [number, number] => [0, 0]);
  for (let wave = -longest; wave <= longest; wave += 1) {
    const weight = 1 / (1 + Math.abs((wave * jitterWaveMm) / lengthMm) ** steepness);
    let [re, im] = [0, 0];
    points.forEach(([x, y], at) => {
      const [cos, sin] = turn((wave * at) / count);
      re += x * cos + y * sin;
      im += y * cos - x * sin;
    });
    smooth.forEach((point, at) => {
      const [cos, sin] = turn((wave * at) / count);
      point[0] += (weight * (re * cos - im * sin)) / count;
      point[1] += (weight * (re * sin + im * cos)) / count;
    });
  }
  return smooth;
}

function turn(turns: number): [number, number] {
  return [Math.cos(2 * Math.PI * turns), Math.sin(2 * Math.PI * turns)];
}
