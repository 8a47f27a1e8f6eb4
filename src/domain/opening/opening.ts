import type { Note } from "../note.ts";
import {
  areaMm2,
  calliperWidths,
  convexHull,
  grown,
  largestPart,
  type Outline,
  outlineOf,
  type Point,
  type Shape,
} from "../outline/index.ts";
import { defaultProtocol, type Protocol } from "../protocol/index.ts";
import { type Barrier, barrierFit } from "./barrier.ts";
import { clearanceReasons, scissorReasons } from "./cautions.ts";
import { parallelCurve } from "./parallel.ts";
import { scissorPathFor } from "./scissors.ts";

export interface OpeningInput {
  stoma: Shape;
  /** Gap on every side (radial), mm; negative where the opening is to be smaller than the stoma. */
  clearanceMm: number;
  barrier?: Barrier;
  /** Diameter of the largest opening the barrier may be cut to. */
  maxOpeningMm?: number;
  /** Diameter of the hole the barrier comes with, at its centre. */
  starterHoleMm?: number;
  /** Barrier to keep outside the opening; the protocol's unless given. */
  edgeMarginMm?: number;
  /** Smallest curve the scissors follow; the protocol's unless given. */
  scissorRadiusMm?: number;
  /** Where the barrier's centre lies on the outline; unless given, where it leaves most on every side. */
  barrierCentreMm?: Point;
}

export interface Opening {
  /** Null where a negative clearance leaves nothing; so are the figures that hang on it. */
  opening: Outline | null;
  areaMm2: number | null;
  /** Area of the opening outside the stoma. */
  exposedSkinMm2: number | null;
  /** Skin shown on every side: half of what the hole is larger across. */
  gapEachSideMm: number;
  /** Least and greatest width of the hole between parallel jaws. */
  holeAcrossMm: { min: number; max: number } | null;
  /** The opening as scissors can follow it; its own gaps come from `exposedSkin`. */
  scissorPath: Outline | null;
  barrierCentreMm: Point | null;
  /** Least barrier left outside the opening; null where no barrier was given. */
  barrierMarginMm: number | null;
  /** Whether the opening can be cut from the barrier that was described. */
  fits: boolean;
  reasons: Note[];
}

/**
 * The opening to cut for a stoma: the curve parallel to its outline with round joins (an oval grown by its
 * axes would be too tight between them), as scissors can follow it, and whether the barrier allows it.
 *
 * An opening that would enclose an island of barrier is given by its outer edge: the island falls out when
 * the opening is cut, and counts as exposed skin.
 *
 * @throws InputError where the stoma is no outline
 */
export function openingFor(input: OpeningInput, protocol: Protocol = defaultProtocol): Opening {
  const stoma = outlineOf(input.stoma, "stoma");
  const { clearanceMm } = input;
  const parts = clearanceMm < 0 ? grown([stoma], clearanceMm) : partsOf(parallelCurve(stoma, clearanceMm));
  const opening = largestPart(parts);
  const clearance = clearanceReasons(clearanceMm, parts.length, protocol);
  if (!opening) return { ...nothingLeft, gapEachSideMm: clearanceMm, reasons: clearance };

  const scissorRadiusMm = input.scissorRadiusMm ?? protocol.scissorRadiusMm;
  const scissors = scissorPathFor(opening, clearanceMm < 0 ? opening : stoma, scissorRadiusMm);
  const barrier = barrierFit(input, opening, protocol);
  const across = calliperWidths(convexHull(opening));
  const area = areaMm2(opening);
  return {
    opening,
    areaMm2: area,
    exposedSkinMm2: clearanceMm < 0 ? 0 : area - areaMm2(stoma),
    gapEachSideMm: clearanceMm,
    holeAcrossMm: { min: across.minMm, max: across.maxMm },
    scissorPath: scissors.path,
    barrierCentreMm: barrier.centreMm,
    barrierMarginMm: barrier.marginMm,
    fits: barrier.reasons.length === 0 && parts.length === 1,
    reasons: [...clearance, ...scissorReasons(scissors, stoma, scissorRadiusMm), ...barrier.reasons],
  };
}

function partsOf(outline: Outline | null): Outline[] {
  return outline ? [outline] : [];
}

const nothingLeft = {
  opening: null,
  areaMm2: null,
  exposedSkinMm2: null,
  holeAcrossMm: null,
  scissorPath: null,
  barrierCentreMm: null,
  barrierMarginMm: null,
  fits: false,
} as const;
