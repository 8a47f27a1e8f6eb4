import {
  areaMm2,
  type Boundary,
  boundaryOf,
  centroidMm,
  intersection,
  moved,
  type Outline,
  outlineOf,
  type Point,
  type Region,
  type Shape,
  signedAreaMm2,
} from "../outline/index.ts";
import { gapRange } from "./gaps.ts";
import { overPlacement } from "./placement.ts";
import { areaByHourMm2, piecesByHour } from "./sectors.ts";

export interface ExposedInput {
  stoma: Shape;
  opening: Shape;
  /** How far the opening lies from where it was drawn: to the person's left, to the head. */
  offsetMm?: Point;
  /** Standard deviation of the placement error along each axis, if expected values are wanted. */
  placementSdMm?: number;
}

export interface HourSkin {
  /** 1 to 12; hour 12 is 15° to each side of the head direction, 3 at the person's left. */
  hour: number;
  areaMm2: number;
  /** Null where no part of the opening's edge lies in this hour. */
  maxGapMm: number | null;
  minGapMm: number | null;
}

export interface SkinFigures {
  /** Area of the opening outside the stoma. */
  exposedSkinMm2: number;
  /** Area of the stoma outside the opening: barrier that lies on the stoma. */
  overlapMm2: number;
  /** Greatest and least gap round the opening's edge; negative = opening inside the stoma. */
  maxGapMm: number;
  minGapMm: number;
  /** Hours 1 to 12 about the stoma's centroid; the areas add up to `exposedSkinMm2`. */
  byClockHour: HourSkin[];
}

export interface ExposedSkin extends SkinFigures {
  /** Means over where the opening may come to lie; null without `placementSdMm`. */
  expected: SkinFigures | null;
}

/**
 * The skin between an opening and the stoma in it. The gap at a place on the opening's edge is its distance
 * to the stoma's outline in whatever direction is shortest, not the difference of two radii; it is exact to
 * 0.0001 mm, areas to 0.00001 mm per mm of edge.
 *
 * @throws InputError where a shape is no outline
 */
export function exposedSkin({ stoma, opening, offsetMm = [0, 0], placementSdMm }: ExposedInput): ExposedSkin {
  const still = stillOf(outlineOf(stoma, "stoma"));
  const placed = moved(outlineOf(opening, "opening"), offsetMm);
  return {
    ...figuresAt(placed, still),
    expected:
      placementSdMm === undefined
        ? null
        : overPlacement(placementSdMm, (errorMm) => figuresAt(moved(placed, errorMm), still)),
  };
}

/** What of the stoma stays the same wherever the opening lies. */
interface Still {
  outline: Outline;
  boundary: Boundary;
  centre: Point;
  areaMm2: number;
}

function stillOf(outline: Outline): Still {
  return { outline, boundary: boundaryOf(outline), centre: centroidMm(outline), areaMm2: areaMm2(outline) };
}

function figuresAt(opening: Outline, stoma: Still): SkinFigures {
  const pieces = piecesByHour(opening, stoma.centre);
  const gaps = hours.map((hour) => {
    const inHour = pieces.filter((piece) => piece.hour === hour);
    return inHour.length > 0 ? gapRange(inHour, stoma.boundary) : null;
  });
  const reached = gaps.filter((gap) => gap !== null);
  const shared = sharedRegion(opening, stoma, Math.min(...reached.map(({ minMm }) => minMm)));
  const openingByHour = areaByHourMm2([opening], stoma.centre);
  const sharedByHour = areaByHourMm2(shared, stoma.centre);
  const sharedMm2 = shared.reduce((sum, part) => sum + signedAreaMm2(part), 0);
  return {
    exposedSkinMm2: areaMm2(opening) - sharedMm2,
    overlapMm2: stoma.areaMm2 - sharedMm2,
    maxGapMm: Math.max(...reached.map(({ maxMm }) => maxMm)),
    minGapMm: Math.min(...reached.map(({ minMm }) => minMm)),
    byClockHour: hours.map((hour, at) => ({
      hour,
      areaMm2: openingByHour[at]! - sharedByHour[at]!,
      maxGapMm: gaps[at]?.maxMm ?? null,
      minGapMm: gaps[at]?.minMm ?? null,
    })),
  };
}

const hours = Array.from({ length: 12 }, (_, at) => at + 1);

/** The part that opening and stoma share; the whole stoma where the opening's edge keeps clear of it all round. */
function sharedRegion(opening: Outline, stoma: Still, minGapMm: number): Region {
  const clear = minGapMm > 0 && boundaryOf(opening).contains(...stoma.outline[0]!);
  return clear ? [stoma.outline] : intersection([opening], [stoma.outline]);
}
