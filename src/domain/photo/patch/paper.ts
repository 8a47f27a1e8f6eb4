import { card } from "../../frame-card/index.ts";
import { lightOfByte } from "../colour/srgb.ts";
import { solveSymmetric } from "../fit/solve.ts";
import { toPicture, type View } from "../mapping/place.ts";
import type { Pixels } from "../picture/pixels.ts";

/** The light on the card, told by its white paper. */
export interface PaperLight {
  /** Light that paper at a place would send back, by channel. */
  at(xMm: number, yMm: number): [red: number, green: number, blue: number];
  /** Median of the paper's green light, 0 to 1. */
  medianLight: number;
}

interface Sample {
  x: number;
  y: number;
  light: [number, number, number];
  full: boolean;
}

const stepMm = 2;
const fullByte = 252;

/**
 * Reads the paper between the markers and the hole, and fits a smooth surface to its light in each channel (second
 * degree in x and y, on logarithms), in rounds that trust print, dirt and shadows' edges less.
 */
export function paperLight(pixels: Pixels, view: View): PaperLight {
  const samples = paperSamples(pixels, view);
  const known = samples.filter(({ full }) => !full);
  // Too little is known of paper that is white to the limit: then it counts as white.
  const enough = known.length >= 0.25 * samples.length && known.length >= 40;
  const fits = [0, 1, 2].map((channel) => fitted(enough ? known : samples, channel));
  const at = (x: number, y: number): [number, number, number] => {
    const row = terms(x / reachMm, y / reachMm);
    return fits.map((fit) => Math.exp(row.reduce((sum, term, k) => sum + term * fit[k]!, 0))) as [
      number,
      number,
      number,
    ];
  };
  return {
    at,
    medianLight: samples.map(({ light }) => light[1]).sort((a, b) => a - b)[samples.length >> 1] ?? 0,
  };
}

const reachMm = card.sideMm / 2;

function paperSamples({ width, height, data }: Pixels, view: View): Sample[] {
  const samples: Sample[] = [];
  for (let x = -reachMm + 2; x <= reachMm - 2; x += stepMm) {
    for (let y = -reachMm + 2; y <= reachMm - 2; y += stepMm) {
      if (!isPaper(x, y)) continue;
      const [px, py] = toPicture(view, [x, y]).map(Math.round) as [number, number];
      if (px < 0 || py < 0 || px >= width || py >= height) continue;
      const from = 4 * (py * width + px);
      const bytes = [data[from]!, data[from + 1]!, data[from + 2]!] as const;
      samples.push({
        x,
        y,
        light: bytes.map((byte) => Math.max(lightOfByte(byte), 1e-3)) as [number, number, number],
        full: bytes.some((byte) => byte >= fullByte),
      });
    }
  }
  return samples;
}

/** Paper, clear of the hole's edge and of the markers. */
function isPaper(x: number, y: number): boolean {
  if (Math.hypot(x, y) < card.holeRadiusMm + 2) return false;
  const clear = card.markerSideMm / 2 + 1.2;
  return card.markers.every(({ centreMm: [cx, cy] }) => Math.abs(x - cx) > clear || Math.abs(y - cy) > clear);
}

function terms(x: number, y: number): number[] {
  return [1, x, y, x * x, x * y, y * y];
}

function fitted(samples: readonly Sample[], channel: number): Float64Array {
  const rows = samples.map(({ x, y }) => terms(x / reachMm, y / reachMm));
  const values = samples.map(({ light }) => Math.log(light[channel]!));
  let fit: Float64Array = new Float64Array(6);
  let trust = values.map(() => 1);
  for (let round = 0; round < 6; round++) {
    const normal = new Float64Array(36);
    const right = new Float64Array(6);
    rows.forEach((row, at) => {
      for (let i = 0; i < 6; i++) {
        for (let j = 0; j < 6; j++) normal[6 * i + j]! += trust[at]! * row[i]! * row[j]!;
        right[i]! += trust[at]! * row[i]! * values[at]!;
      }
    });
    for (let i = 0; i < 6; i++) normal[7 * i]! += 1e-6;
    fit = solveSymmetric(normal, right) ?? fit;
    const off = rows.map((row, at) => values[at]! - row.reduce((sum, term, k) => sum + term * fit[k]!, 0));
    const scale = Math.max(0.02, 1.5 * median(off.map(Math.abs)));
    // What is darker than paper is print or dirt: it is trusted less than what is brighter.
    trust = off.map((o) => 1 / (1 + (o / (o < 0 ? scale : 2 * scale)) ** 2) ** 2);
  }
  return fit;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
}
