import type { Point } from "../../outline/index.ts";
import { standsAt } from "../mapping/camera.ts";
import type { View } from "../mapping/place.ts";
import { believed } from "./believed.ts";
import { beyondBase, directions, normals, projected, type Solid } from "./solid.ts";
import type { Tip } from "./tip.ts";

/** What a silhouette says of the base under it. */
export interface Body {
  /** How far the silhouette reaches beyond the base in each direction, in mm: mean over what is likely. */
  beyondMm: Float64Array;
  /** Standard deviation of the base's mean diameter that comes from not knowing the solid. */
  diameterSpreadMm: number;
  heightMm: number;
  heightSpreadMm: number;
  /** How far the tip is seen from where it would be over the base's middle: a stoma that leans. 0 without a tip. */
  tipOffMm: number;
}

/** A height told by somebody who looked from the side. */
export interface ToldHeight {
  mm: number;
  spreadMm: number;
}

/** What else than its silhouette tells how a stoma rises; null where it is not known. */
export interface Clues {
  tip: Tip | null;
  /** Light lost by the skin at the foot: see `shadeBeside`. */
  shade: number | null;
  told: ToldHeight | null;
}

/** Terms of the base's reach: its middle (two), its mean, then a cosine and a sine for each wave from the second. */
const firstWave = 2;
const waves = believed.waves.length + 1;
const terms = 3 + 2 * waves;
const rounds = 4;

/**
 * Weighs solids of every height, fullness and overhang by how well each explains the silhouette and where the tip is
 * seen, and averages over them: what cannot be known from one picture ends up in the spread.
 */
export function fitBody(silhouette: Float64Array, view: View, { tip, shade, told }: Clues): Body {
  const candidates = solids(told).flatMap(({ solid, logShare }) =>
    believed.oval.map(({ spread, share }) => {
      const fit = fitBase(silhouette, view, solid, spread);
      const clues = tipFit(fit, view, solid, tip) + shadeFit(solid, shade);
      const logWeight = logShare + Math.log(share) + fit.logLikelihood + clues;
      return { ...fit, solid, logWeight };
    }),
  );
  const most = Math.max(...candidates.map(({ logWeight }) => logWeight));
  const weights = candidates.map(({ logWeight }) => Math.exp(logWeight - most));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const meanOf = (value: (at: number) => number) =>
    weights.reduce((sum, weight, at) => sum + weight * value(at), 0) / total;
  const diameter = meanOf((at) => candidates[at]!.diameterMm);
  const height = meanOf((at) => candidates[at]!.solid.heightMm);
  return {
    beyondMm: Float64Array.from(normals, (_, k) => meanOf((at) => candidates[at]!.beyond[k]!)),
    diameterSpreadMm: Math.sqrt(meanOf((at) => (candidates[at]!.diameterMm - diameter) ** 2)),
    heightMm: height,
    heightSpreadMm: Math.sqrt(meanOf((at) => (candidates[at]!.solid.heightMm - height) ** 2)),
    tipOffMm: meanOf((at) => tipOff(candidates[at]!.middle, view, candidates[at]!.solid, tip)),
  };
}

function solids(told: ToldHeight | null): { solid: Solid; logShare: number }[] {
  const { most } = believed.heightMm;
  const heights = told
    ? [-1.5, -0.75, 0, 0.75, 1.5].map((k) => Math.max(0, told.mm + k * told.spreadMm))
    : [0, 1, 2, 3.5, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23.5, 26, 29, most];
  return heights.flatMap((heightMm, at) => {
    const span = (heights[at + 1] ?? heightMm) - (heights[at - 1] ?? heightMm) || 1;
    const logHeight = Math.log(
      span * (told ? bell(heightMm, told.mm, told.spreadMm) : heightBelief(heightMm)),
    );
    return believed.fullness.flatMap((fullness) =>
      believed.overhang.map((overhang) => ({
        solid: { heightMm, fullness: fullness.value, overhang: overhang.value * overhangShare(heightMm) },
        logShare: logHeight + Math.log(fullness.share * overhang.share),
      })),
    );
  });
}

/** What hardly stands up cannot hang over. */
function overhangShare(heightMm: number): number {
  return Math.min(1, heightMm / believed.overhangFromMm);
}

function heightBelief(heightMm: number): number {
  const { lowShare, lowMean, mean, spread } = believed.heightMm;
  const low = Math.exp(-heightMm / lowMean) / lowMean;
  return lowShare * low + (1 - lowShare) * bell(heightMm, mean, spread);
}

function bell(value: number, mean: number, spread: number): number {
  return Math.exp(-0.5 * ((value - mean) / spread) ** 2) / (spread * Math.sqrt(2 * Math.PI));
}

/** How well the light at its foot suits a stoma's height; 0 where nothing is known of it. */
function shadeFit({ heightMm }: Solid, shade: number | null): number {
  if (shade === null) return 0;
  const { halfwayMm, widthMm, seldom, none, noneSpread, some } = believed.shade;
  const low = seldom + (1 - 2 * seldom) / (1 + Math.exp((heightMm - halfwayMm) / widthMm));
  const seen = Math.max(0, shade);
  return Math.log(low * bell(seen, none, noneSpread) + ((1 - low) * Math.exp(-seen / some)) / some);
}

interface Base {
  middle: Point;
  diameterMm: number;
  beyond: Float64Array;
  logLikelihood: number;
}

/** Base and silhouette settle one another in a few rounds: what stands beyond depends little on the base. */
function fitBase(silhouette: Float64Array, view: View, solid: Solid, ovalSpread: number): Base {
  let beyond: Float64Array = new Float64Array(directions);
  let coefficients: Float64Array = new Float64Array(terms);
  const radius = silhouette.reduce((sum, reach) => sum + reach, 0) / directions;
  const spreads = waveSpreads(ovalSpread, radius);
  const solver = ridge(spreads);
  let middle: Point = [0, 0];
  for (let round = 0; round < rounds; round++) {
    coefficients = solver(silhouette.map((reach, k) => reach - beyond[k]!));
    middle = [coefficients[0]!, coefficients[1]!];
    if (solid.heightMm === 0) break;
    beyond = beyondBase(view, middle, reachOf(coefficients), solid);
  }
  const scale = believed.independent / directions / believed.edgeMm ** 2;
  let squares = 0;
  for (let k = 0; k < directions; k++) {
    const [nx, ny] = normals[k]!;
    const reach = middle[0] * nx + middle[1] * ny + reachAt(coefficients, k) + beyond[k]!;
    squares += scale * (silhouette[k]! - reach) ** 2;
  }
  spreads.forEach((spread, at) => {
    if (spread > 0) squares += (coefficients[at]! / spread) ** 2;
  });
  return {
    middle,
    beyond,
    diameterMm: 2 * coefficients[2]!,
    logLikelihood: -0.5 * squares - 2 * Math.log(ovalSpread),
  };
}

/** 0 where nothing is believed: the middle and the size. */
function waveSpreads(ovalSpread: number, radius: number): number[] {
  return [
    0,
    0,
    0,
    ...[ovalSpread, ...believed.waves].flatMap((spread) => [spread * radius, spread * radius]),
  ];
}

const rows = normals.map((_, k) => {
  const angle = (2 * Math.PI * k) / directions;
  const row = [Math.cos(angle), Math.sin(angle), 1];
  for (let wave = 0; wave < waves; wave++) {
    row.push(Math.cos((firstWave + wave) * angle), Math.sin((firstWave + wave) * angle));
  }
  return row;
});

/** Least squares toward no waves; evenly spread directions make the terms independent of one another. */
function ridge(spreads: readonly number[]): (reach: Float64Array) => Float64Array {
  const perTerm = spreads.map((spread, at) => {
    const squares = at === 2 ? directions : directions / 2;
    const trust = (believed.independent / directions / believed.edgeMm ** 2) * squares;
    return spread > 0 ? trust / (trust + 1 / spread ** 2) / squares : 1 / squares;
  });
  return (reach) =>
    Float64Array.from(perTerm, (weight, at) => {
      let sum = 0;
      for (let k = 0; k < directions; k++) sum += rows[k]![at]! * reach[k]!;
      return weight * sum;
    });
}

/** How far the base reaches from its middle in one direction. */
function reachAt(coefficients: Float64Array, k: number): number {
  let reach = 0;
  for (let at = 2; at < terms; at++) reach += coefficients[at]! * rows[k]![at]!;
  return reach;
}

function reachOf(coefficients: Float64Array): Float64Array {
  return Float64Array.from(normals, (_, k) => reachAt(coefficients, k));
}

/** Distance on the skin between where a tip over the middle would be seen and where it is. */
function tipOff(middle: Point, view: View, solid: Solid, tip: Tip | null): number {
  const seen =
    tip && projected(view, standsAt(view.camera), middle, believed.tip.heightShare * solid.heightMm);
  return tip && seen ? Math.hypot(seen[0] - tip.at[0], seen[1] - tip.at[1]) : 0;
}

/** How well the tip stands over the base's middle; 0 where no tip is seen. */
function tipFit({ middle, diameterMm }: Base, view: View, solid: Solid, tip: Tip | null): number {
  if (tip === null) return 0;
  const { heightShare, heightSpread, placeMm, placeShare, mistaken } = believed.tip;
  const camera = standsAt(view.camera);
  const seen = projected(view, camera, middle, heightShare * solid.heightMm);
  const higher = projected(view, camera, middle, (heightShare + heightSpread) * solid.heightMm);
  if (seen === null || higher === null) return Math.log(mistaken);
  const vague = (higher[0] - seen[0]) ** 2 + (higher[1] - seen[1]) ** 2;
  const variance = placeMm ** 2 + (placeShare * diameterMm) ** 2 + vague;
  const off = (seen[0] - tip.at[0]) ** 2 + (seen[1] - tip.at[1]) ** 2;
  const anywhere = 1 / (Math.PI * (diameterMm / 4) ** 2);
  return Math.log(
    ((1 - mistaken) * Math.exp(-0.5 * (off / variance))) / (2 * Math.PI * variance) + mistaken * anywhere,
  );
}
