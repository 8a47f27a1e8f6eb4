import type { Outline, Point } from "../../domain/outline/index.ts";
import { evenlySpaced } from "./evenly.ts";

/** Points that a smoothed outline has. */
const pointCount = 256;

/** Harmonics kept: fewer is smoother. A circle is harmonic 1 alone, so no setting changes it. */
export const smoothings = { none: null, little: 16, much: 6 } as const;
export type Smoothing = keyof typeof smoothings;

/**
 * A hand-drawn outline without the tremor of the hand: its Fourier series along the line, cut off after `harmonics`
 * with a taper over the last half, so that no ripple appears. Size and place stay: harmonics 0 and 1 are kept whole.
 *
 * @source Kuhl & Giardina 1982, Elliptic Fourier features of a closed contour
 */
export function smoothed(outline: Outline, smoothing: Smoothing): Outline {
  const harmonics = smoothings[smoothing];
  if (harmonics === null) return outline;
  const points = evenlySpaced(outline, pointCount);
  const terms: { k: number; x: number; y: number }[] = [];
  for (let k = -harmonics; k <= harmonics; k += 1) {
    const [x, y] = term(points, k);
    const weight = taper(Math.abs(k), harmonics);
    terms.push({ k, x: x * weight, y: y * weight });
  }
  return points.map((_, n): Point => {
    let [x, y] = [0, 0];
    for (const { k, x: a, y: b } of terms) {
      const turn = (2 * Math.PI * k * n) / pointCount;
      const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
      x += a * cos - b * sin;
      y += a * sin + b * cos;
    }
    return [x, y];
  });
}

/** The k-th term of the series of x + iy. */
function term(points: Outline, k: number): Point {
  let [real, imaginary] = [0, 0];
  for (const [n, [x, y]] of points.entries()) {
    const turn = (-2 * Math.PI * k * n) / points.length;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    real += x * cos - y * sin;
    imaginary += x * sin + y * cos;
  }
  return [real / points.length, imaginary / points.length];
}

function taper(k: number, harmonics: number): number {
  const whole = Math.max(1, harmonics / 2);
  if (k <= whole) return 1;
  const share = (k - whole) / (harmonics + 1 - whole);
  return 0.5 * (1 + Math.cos(Math.PI * share));
}

/** The greatest distance from a point of one line to the other line, mm: how far smoothing moved it. */
export function furthestApartMm(from: Outline, to: Outline): number {
  let furthest = 0;
  for (const point of from) furthest = Math.max(furthest, distanceToMm(point, to));
  return furthest;
}

function distanceToMm([x, y]: Point, outline: Outline): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < outline.length; i += 1) {
    const [[ax, ay], [bx, by]] = [outline[i]!, outline[(i + 1) % outline.length]!];
    const [dx, dy] = [bx - ax, by - ay];
    const length2 = dx * dx + dy * dy;
    const along = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length2));
    nearest = Math.min(nearest, Math.hypot(x - ax - along * dx, y - ay - along * dy));
  }
  return nearest;
}
