import type { Barrier } from "../opening/index.ts";
import {
  difference,
  intersection,
  type Outline,
  outlineOf,
  type Point,
  type Region,
  type Shape,
  signedAreaMm2,
  smallestCircle,
  union,
} from "../outline/index.ts";
import { type SkinPlace, skinRegion } from "./place.ts";

export interface SkinInput {
  /** The stoma's base when the skin was looked at; places are in its millimetres. */
  stoma: Shape;
  /** The opening worn until then, and the barrier it was cut in, where they are known. */
  opening?: Shape;
  barrier?: Barrier;
  /** Of the barrier; by default that of the smallest circle round the opening, or round the stoma. */
  barrierCentreMm?: Point;
  findings: readonly { what: string; place: SkinPlace }[];
}

/** Skin on which one thing was seen, however many places it was marked at; overlaps count once. */
export interface SkinArea {
  what: string;
  areaMm2: number;
  /** Of it under the barrier's adhesive: inside the barrier, outside the opening. Null where no barrier is known. */
  underBarrierMm2: number | null;
  /** Of it in the skin that the opening left bare. Null where no opening is known. */
  bareMm2: number | null;
}

export interface SkinAreas {
  /** Skin that the opening left bare round the stoma. */
  bareSkinMm2: number | null;
  /** One for each word used, in the order of first use. Areas of different words may overlap and are never added. */
  byWhat: SkinArea[];
}

/**
 * How much skin each finding covers, under the barrier and where the opening left skin bare. Words are kept apart:
 * there is no order among them and no sum. Areas are exact for the shapes given to 0.01 mm² per mm of edge.
 *
 * @throws InputError where a shape is no outline
 */
export function skinAreas({ stoma, opening, barrier, barrierCentreMm, findings }: SkinInput): SkinAreas {
  const base = outlineOf(stoma, "stoma");
  const hole = opening ? outlineOf(opening, "opening") : null;
  const bare = hole && difference([hole], [base]);
  const adhesive = barrier ? adhesiveOf(barrier, hole ?? base, barrierCentreMm) : null;
  const words = [...new Set(findings.map(({ what }) => what))];
  return {
    bareSkinMm2: bare && regionMm2(bare),
    byWhat: words.map((what) => {
      const skin = findings.reduce<Region>(
        (all, { what: other, place }, at) =>
          other === what ? union(all, skinRegion(place, base, `findings.${at}.place`)) : all,
        [],
      );
      return {
        what,
        areaMm2: regionMm2(skin),
        underBarrierMm2: adhesive && regionMm2(intersection(skin, adhesive)),
        bareMm2: bare && regionMm2(intersection(skin, bare)),
      };
    }),
  };
}

/** The barrier with its hole: the opening, or the stoma itself where nobody knows what was cut. */
function adhesiveOf(barrier: Barrier, hole: Outline, given?: Point): Region {
  return difference([edgeOf(barrier, given ?? smallestCircle(hole).centreMm)], [hole]);
}

function edgeOf(barrier: Barrier, [x, y]: Point): Outline {
  if (barrier.shape === "round") {
    return outlineOf({ guide: { shape: "round", diameterMm: barrier.diameterMm } }).map(
      ([px, py]): Point => [px + x, py + y],
    );
  }
  const [halfX, halfY] = [barrier.widthMm / 2, barrier.heightMm / 2];
  return [
    [x - halfX, y - halfY],
    [x + halfX, y - halfY],
    [x + halfX, y + halfY],
    [x - halfX, y + halfY],
  ];
}

function regionMm2(region: Region): number {
  return Math.max(
    0,
    region.reduce((sum, part) => sum + signedAreaMm2(part), 0),
  );
}
