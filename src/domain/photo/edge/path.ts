import { card } from "../../frame-card/index.ts";
import type { Point } from "../../outline/index.ts";
import { closedPath } from "./closedPath.ts";
import { edgeOfHoleMm } from "./disc.ts";
import type { Features } from "./features.ts";
import { direction, type PolarOutline } from "./polar.ts";
import { alongRays } from "./rays.ts";

export const rayCount = 200;
const stepMm = 0.2;
const nearestMm = 1.6;
/** Width on both sides over which colours are averaged where an edge is looked for. */
const sideMm = 1;
/** Weights of what lies inside and outside, of the step in likeness, and of the step in the colours themselves. */
const weights = { likeness: 1, likenessStep: 0.5, colourStep: 1.6 };
const stiffness = 0.06;
const beyondHole = 1e4;
/** A step in brightness that counts in full. */
const fullBrightnessStep = 0.45;

export interface PathFound extends PolarOutline {
  /** Mean over the rays of the step in colour, 2 at most. */
  stepSeen: number;
}

/** The hole seen along rays from a place in the stoma. */
export interface Star {
  middle: Point;
  /** Radii on each ray, and running sums a ray: see `alongRays`. */
  radii: number;
  steps: number;
  features: Features;
  /** How much of a step in colour each radius of each ray shows; rays one after the other. */
  colourSteps: Float32Array;
  /** 1 where a radius lies on the card. */
  onCard: Uint8Array;
}

const near = Math.round(sideMm / stepMm);

function sampling(steps: number) {
  return { count: rayCount, steps, stepMm, firstMm: nearestMm - near * stepMm };
}

/** Looks along rays from a place; `pinkness` is what mucosa has over the skin here. */
export function starFrom(features: Features, middle: Point, pinkness: number): Star {
  const reach = card.holeRadiusMm - edgeOfHoleMm / 2;
  const radii = Math.ceil((reach + Math.hypot(...middle) - nearestMm) / stepMm);
  const steps = radii + 2 * near;
  const sample = (plane: Float32Array) => alongRays(plane, features, middle, sampling(steps)).sums;
  const [bright, red, blue] = [
    sample(features.brightness),
    sample(features.redness),
    sample(features.blueness),
  ];
  const colourSteps = new Float32Array(rayCount * radii);
  const onCard = new Uint8Array(rayCount * radii);
  for (let ray = 0; ray < rayCount; ray++) {
    const [c, s] = direction(ray, rayCount);
    for (let r = 0; r < radii; r++) {
      const at = ray * radii + r;
      const radius = nearestMm + r * stepMm;
      if (Math.hypot(middle[0] + radius * c, middle[1] + radius * s) > reach) {
        onCard[at] = 1;
        continue;
      }
      const edge = ray * (steps + 1) + r + near;
      colourSteps[at] = colourStep(stepAt(bright, edge), stepAt(red, edge) + stepAt(blue, edge), pinkness);
    }
  }
  return { middle, radii, steps, features, colourSteps, onCard };
}

/** Mean just inside less mean just outside. */
function stepAt(sums: Float64Array, edge: number): number {
  return (2 * sums[edge]! - sums[edge - near]! - sums[edge + near]!) / near;
}

/**
 * The closed lines round the middle that best part what looks like stoma from what looks like skin, along steps in
 * colour; one for each caution, which is taken from the likeness: the higher, the less is taken for stoma.
 */
export function likenessPaths(likeness: Float32Array, star: Star, cautions: readonly number[]): PathFound[] {
  const { middle, radii, steps, features, colourSteps, onCard } = star;
  const { sums } = alongRays(likeness, features, middle, sampling(steps));
  return cautions.map((caution) => {
    const costs = new Float32Array(rayCount * radii);
    for (let ray = 0; ray < rayCount; ray++) {
      for (let r = 0; r < radii; r++) {
        const at = ray * radii + r;
        const edge = ray * (steps + 1) + r + near;
        const gain =
          weights.likeness * stepMm * (sums[edge]! - caution * r) +
          weights.likenessStep * stepAt(sums, edge) +
          weights.colourStep * colourSteps[at]!;
        costs[at] = onCard[at] ? beyondHole : -gain;
      }
    }
    const path = closedPath({ rays: rayCount, radii, costs }, stiffness);
    const stepSeen = path.reduce((sum, r, ray) => sum + colourSteps[ray * radii + r]!, 0) / rayCount;
    return { middle, radiiMm: Float64Array.from(path, (r) => nearestMm + r * stepMm), stepSeen };
  });
}

/**
 * How much like the edge of mucosa a step is, -1 to 2: pinker inside, and brighter or darker. Darker alone is a
 * shadow's edge and counts nothing.
 */
function colourStep(brighter: number, pinker: number, pinkness: number): number {
  const pink = Math.max(-1, Math.min(1, pinker / (0.5 * pinkness)));
  const bright = Math.min(1, Math.abs(brighter) / fullBrightnessStep);
  if (brighter > 0) return pink > -0.4 ? pink + bright : pink;
  return pink + bright * Math.max(0, Math.min(1, pinker / (0.3 * pinkness)));
}
