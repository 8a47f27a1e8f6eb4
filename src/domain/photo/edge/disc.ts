import { card } from "../../frame-card/index.ts";
import { patchHalfMm } from "../patch/patch.ts";
import type { Features } from "./features.ts";

/** The round patch of the hole that differs most from the rest of it: where the stoma is, roughly. */
export interface Disc {
  xMm: number;
  yMm: number;
  radiusMm: number;
  /** How far its mean colour lies from that of the skin around, in spreads of the skin. */
  contrast: number;
  /** Mean redness plus blueness over that of the skin: above 0 for mucosa. */
  pinkness: number;
}

/** Pixels nearer the hole's edge than this see its shadow or the paper. */
export const edgeOfHoleMm = 1.5;
const stepMm = 1;
/** Least spreads that count, so that skin without grain does not make a mountain of nothing. */
const leastSpread = [0.25, 0.06, 0.05];
/** What is darker than the skin may be its shadow: it counts this many times less than what is brighter. */
const shadowShare = 0.1;
const mostSpreads = 5;

interface Sample {
  x: number;
  y: number;
  values: readonly [number, number, number];
  pink: number;
}

/**
 * Tries discs all over the hole and keeps the one that takes most of the scatter out of brightness, redness and
 * blueness, each measured in spreads of the skin near the card and cut off where shine and blood would rule.
 */
export function stomaDisc(features: Features): Disc | null {
  const samples = samplesOf(features);
  const rows = byRow(samples);
  const total = sumOf(samples);
  let best: (Disc & { gain: number }) | null = null;
  const tryAt = (xMm: number, yMm: number, radiusMm: number) => {
    const inside = sumInside(rows, xMm, yMm, radiusMm);
    const [n, m] = [inside.count, total.count - inside.count];
    if (n < 12 || m < 60) return;
    const pinkness = inside.pink / n - (total.pink - inside.pink) / m;
    if (pinkness <= 0) return;
    let apart = 0;
    for (let k = 0; k < 3; k++) apart += (inside.sums[k]! / n - (total.sums[k]! - inside.sums[k]!) / m) ** 2;
    const gain = ((n * m) / (n + m)) * apart;
    if (best === null || gain > best.gain) {
      best = { xMm, yMm, radiusMm, contrast: Math.sqrt(apart), pinkness, gain };
    }
  };
  const reach = card.holeRadiusMm - edgeOfHoleMm;
  for (let radius = 4; radius <= reach; radius += 2) {
    const far = Math.min(24, reach - Math.min(radius, reach - 6));
    for (let x = -far; x <= far; x += 2) for (let y = -far; y <= far; y += 2) tryAt(x, y, radius);
  }
  if (best === null) return null;
  const coarse: Disc = best;
  for (let dr = -1.5; dr <= 1.5; dr += 0.75) {
    for (let dx = -1.5; dx <= 1.5; dx += 0.75) {
      for (let dy = -1.5; dy <= 1.5; dy += 0.75) {
        tryAt(coarse.xMm + dx, coarse.yMm + dy, coarse.radiusMm + dr);
      }
    }
  }
  return best;
}

function samplesOf({ side, pxPerMm, brightness, redness, blueness }: Features): Sample[] {
  const raw: (Sample & { far: number })[] = [];
  const reach = card.holeRadiusMm - edgeOfHoleMm;
  for (let y = -reach; y <= reach; y += stepMm) {
    for (let x = -reach; x <= reach; x += stepMm) {
      const far = Math.hypot(x, y);
      if (far > reach) continue;
      const column = Math.min(side - 1, Math.round((x + patchHalfMm) * pxPerMm - 0.5));
      const row = Math.min(side - 1, Math.round((patchHalfMm - y) * pxPerMm - 0.5));
      const at = row * side + column;
      const values = [brightness[at]!, redness[at]!, blueness[at]!] as const;
      raw.push({ x, y, values, pink: values[1] + values[2], far });
    }
  }
  const ring = raw.filter(({ far }) => far > reach - 4);
  const scales = [0, 1, 2].map((k) =>
    spreadOf(
      ring.map(({ values }) => values[k]!),
      leastSpread[k]!,
    ),
  );
  return raw.map(({ x, y, values, pink }) => ({
    x,
    y,
    pink,
    values: values.map((value, k) => {
      const raw = (value - scales[k]!.middle) / scales[k]!.spread;
      const spreads = k === 0 && raw < 0 ? shadowShare * raw : raw;
      return Math.max(-mostSpreads, Math.min(mostSpreads, spreads));
    }) as unknown as [number, number, number],
  }));
}

function spreadOf(values: number[], least: number) {
  const sorted = values.sort((a, b) => a - b);
  const middle = sorted[sorted.length >> 1]!;
  const off = sorted.map((value) => Math.abs(value - middle)).sort((a, b) => a - b);
  return { middle, spread: Math.max(least, 1.48 * off[off.length >> 1]!) };
}

interface Sum {
  count: number;
  sums: [number, number, number];
  pink: number;
}

function sumOf(samples: readonly Sample[]): Sum {
  const sum: Sum = { count: 0, sums: [0, 0, 0], pink: 0 };
  for (const { values, pink } of samples) {
    sum.count += 1;
    sum.pink += pink;
    for (let k = 0; k < 3; k++) sum.sums[k]! += values[k]!;
  }
  return sum;
}

interface Row {
  y: number;
  from: number;
  /** Sums of the samples before each: five figures a place. */
  before: Float64Array;
  count: number;
}

/** Rows with running sums, so that a disc costs a step a row and not a step a sample. */
function byRow(samples: readonly Sample[]): Row[] {
  const rows = new Map<number, Sample[]>();
  for (const sample of samples) rows.set(sample.y, [...(rows.get(sample.y) ?? []), sample]);
  return [...rows].map(([y, row]) => {
    const before = new Float64Array(4 * (row.length + 1));
    row.forEach(({ values, pink }, at) => {
      for (let k = 0; k < 3; k++) before[4 * (at + 1) + k] = before[4 * at + k]! + values[k]!;
      before[4 * (at + 1) + 3] = before[4 * at + 3]! + pink;
    });
    return { y, from: row[0]!.x, before, count: row.length };
  });
}

function sumInside(rows: readonly Row[], x: number, y: number, radius: number): Sum {
  const sum: Sum = { count: 0, sums: [0, 0, 0], pink: 0 };
  for (const row of rows) {
    const half = radius * radius - (row.y - y) * (row.y - y);
    if (half < 0) continue;
    const width = Math.sqrt(half);
    const first = Math.max(0, Math.ceil((x - width - row.from) / stepMm));
    const past = Math.min(row.count, Math.floor((x + width - row.from) / stepMm) + 1);
    if (past <= first) continue;
    sum.count += past - first;
    for (let k = 0; k < 3; k++) sum.sums[k]! += row.before[4 * past + k]! - row.before[4 * first + k]!;
    sum.pink += row.before[4 * past + 3]! - row.before[4 * first + 3]!;
  }
  return sum;
}
