import {
  boundaryOf,
  grown,
  largestPart,
  type Outline,
  outlineFrom,
  type Track,
  trackOf,
} from "../outline/index.ts";
import { boundaryWalk, type Place } from "./boundaryWalk.ts";
import { rawParallel } from "./rawParallel.ts";

/** Arcs of an opening stay this close to the true ones, mm. */
const arcToleranceMm = 0.0005;

/**
 * The curve parallel to an outline, with round joins: `offsetMm` outside it, or inside where negative. It
 * lies within the tolerance of the exact curve of the given polygon, and never nearer to the polygon. Of a
 * curve that falls apart one part is returned; of one that encloses a hole the outer edge, since an island
 * in a hole cannot be cut.
 *
 * @param outline counterclockwise, not meeting itself
 * @returns null where nothing is left
 */
export function parallelCurve(
  outline: Outline,
  offsetMm: number,
  toleranceMm = arcToleranceMm,
): Outline | null {
  if (offsetMm === 0) return outline;
  const track = trackOf(outline);
  const raw = rawParallel(track, offsetMm, toleranceMm);
  if (raw.clean && offsetMm > 0) return outlineFrom(raw);
  const start = offsetMm > 0 ? leftmost(raw) : certainPlace(raw, outline, -offsetMm);
  if (start === null) return null;
  const walked = boundaryWalk(raw, start, offsetMm > 0 ? -1 : 1);
  return walked ? outlineFrom(walked) : largestPart(grown([outline], offsetMm));
}

/** The leftmost point of an outward curve: nothing lies beyond it, so it is on the outer edge. */
function leftmost({ xs, count }: Track): Place {
  let segment = 0;
  for (let at = 1; at < count; at += 1) if (xs[at]! < xs[segment]!) segment = at;
  return { segment, share: 0 };
}

/** Long segments of an inward curve are tried at places about this far apart, mm, but not at more than these. */
const trialStepMm = 1;
const mostTrials = 64;

/** A place on an inward curve that no part of the outline is nearer to than the depth. */
function certainPlace({ xs, ys, count }: Track, outline: Outline, depthMm: number): Place | null {
  const boundary = boundaryOf(outline);
  for (let segment = 0; segment < count; segment += 1) {
    const next = segment + 1 < count ? segment + 1 : 0;
    const dx = xs[next]! - xs[segment]!;
    const dy = ys[next]! - ys[segment]!;
    const trials = Math.min(mostTrials, Math.ceil(Math.hypot(dx, dy) / trialStepMm));
    for (let trial = 0; trial < trials; trial += 1) {
      const share = (trial + 0.5) / trials;
      const x = xs[segment]! + share * dx;
      const y = ys[segment]! + share * dy;
      if (boundary.distanceMm(x, y) >= depthMm - 1e-9) return { segment, share };
    }
  }
  return null;
}
