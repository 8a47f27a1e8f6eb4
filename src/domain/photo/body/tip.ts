import { areaMm2, type Point } from "../../outline/index.ts";
import { blurred, type Features } from "../edge/features.ts";
import { direction, insideOf, type PolarOutline, pointsOf } from "../edge/polar.ts";
import { patchHalfMm } from "../patch/patch.ts";

/** The opening of the bowel as the camera sees it. */
export interface Tip {
  at: Point;
  /** How much darker it is than what lies round it, on logarithms; below about 0.05 there is nothing to see. */
  darkness: number;
}

const stepMm = 0.5;
const directions = 16;
/** Sizes as shares of the outline's radius. */
const spotShare = 0.1;
const ringShares = [0.24, 0.36];
const searchShare = 0.62;

/**
 * The place inside the outline that is darkest beside the ring round it: there the folds run in and light is lost.
 * The third darkest tenth of the ring is asked, so that the edge of a shadow or a shine does not make a spot.
 */
export function tipSeen(features: Features, outline: PolarOutline): Tip | null {
  const radius = Math.sqrt(areaMm2(pointsOf(outline)) / Math.PI);
  const plane = blurred(
    features.brightness,
    features.side,
    Math.max(1, Math.round(spotShare * radius * 0.7 * features.pxPerMm)),
  );
  const inside = insideOf(outline);
  const [mx, my] = outline.middle;
  const reach = searchShare * Math.max(...outline.radiiMm);
  let best: Tip | null = null;
  for (let x = mx - reach; x <= mx + reach; x += stepMm) {
    for (let y = my - reach; y <= my + reach; y += stepMm) {
      if (inside(x, y) < (1 - searchShare) * radius) continue;
      const darkness = ringOver(plane, features, x, y, radius);
      if (best === null || darkness > best.darkness) best = { at: [x, y], darkness };
    }
  }
  return best;
}

function ringOver(plane: Float32Array, features: Features, x: number, y: number, radius: number): number {
  const ring: number[] = [];
  for (let k = 0; k < directions; k++) {
    const [c, s] = direction(k, directions);
    let sum = 0;
    for (const share of ringShares)
      sum += valueAt(plane, features, x + share * radius * c, y + share * radius * s);
    ring.push(sum / ringShares.length);
  }
  ring.sort((a, b) => a - b);
  return ring[Math.floor(0.3 * directions)]! - valueAt(plane, features, x, y);
}

function valueAt(plane: Float32Array, { side, pxPerMm }: Features, x: number, y: number): number {
  const column = Math.round((x + patchHalfMm) * pxPerMm - 0.5);
  const row = Math.round((patchHalfMm - y) * pxPerMm - 0.5);
  const within = column >= 0 && row >= 0 && column < side && row < side;
  return within ? plane[row * side + column]! : 0;
}
