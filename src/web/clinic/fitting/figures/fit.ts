import { type ExposedSkin, exposedSkin } from "../../../../domain/exposed/index.ts";
import type { Note } from "../../../../domain/note.ts";
import { type Opening, openingFor } from "../../../../domain/opening/index.ts";
import {
  calliperWidths,
  centroidMm,
  convexHull,
  moved,
  type Outline,
  outlineOf,
  type Point,
} from "../../../../domain/outline/index.ts";
import type { Protocol } from "../../../../domain/protocol/index.ts";
import type { PouchingSystem, RecordedShape } from "../../../../record/entry/index.ts";

export interface Range {
  min: number;
  max: number;
}

/** One opening against the stoma on the plate. */
export interface OpeningFigures {
  /** Where it lies on the plate. */
  outline: Outline;
  gapEachSideMm: Range;
  holeAcrossMm: Range;
  exposed: ExposedSkin;
}

/** Both openings against one outline. */
export interface Fit {
  inUse: OpeningFigures | null;
  proposed: OpeningFigures | null;
  /** What to know before cutting. */
  reasons: Note[];
  /** The barrier's edge and the least that is left of it outside the proposed opening; null where not known. */
  barrier: { centreMm: Point; radiusMm: number; leastLeftMm: number } | null;
}

/** An opening as it was cut; `asCut`: from this very outline, so that it lies where it was drawn. */
export interface InUse {
  shape: RecordedShape;
  asCut: boolean;
}

/** The opening in use against the outline, as the record judges it: centred on it unless it was cut from it. */
export function inUseFigures(stoma: Outline, { shape, asCut }: InUse): OpeningFigures {
  const cut = outlineOf(shape);
  return figuresOf(stoma, asCut ? cut : centredOn(cut, stoma));
}

/** The opening to cut, with what the barrier and the scissors say to it. */
export function proposedFit(
  stoma: Outline,
  clearanceMm: number,
  system: PouchingSystem | null,
  protocol: Protocol,
): Pick<Fit, "proposed" | "reasons" | "barrier"> {
  const opening = openingFor({ stoma: { outline: stoma }, clearanceMm, ...limitsOf(system) }, protocol);
  return {
    proposed: opening.scissorPath && figuresOf(stoma, opening.scissorPath),
    reasons: opening.reasons,
    barrier: barrierOf(opening, system),
  };
}

function barrierOf(
  { barrierCentreMm, barrierMarginMm }: Opening,
  system: PouchingSystem | null,
): Fit["barrier"] {
  if (!system?.barrierAcrossMm || !barrierCentreMm || barrierMarginMm === null) return null;
  return { centreMm: barrierCentreMm, radiusMm: system.barrierAcrossMm / 2, leastLeftMm: barrierMarginMm };
}

function limitsOf(system: PouchingSystem | null) {
  if (!system) return {};
  const { barrierAcrossMm, maxOpeningMm, starterHoleMm } = system;
  return {
    barrier: barrierAcrossMm ? ({ shape: "round", diameterMm: barrierAcrossMm } as const) : undefined,
    maxOpeningMm,
    starterHoleMm,
  };
}

function figuresOf(stoma: Outline, opening: Outline): OpeningFigures {
  const exposed = exposedSkin({ stoma: { outline: stoma }, opening: { outline: opening } });
  const across = calliperWidths(convexHull(opening));
  return {
    outline: opening,
    gapEachSideMm: { min: exposed.minGapMm, max: exposed.maxGapMm },
    holeAcrossMm: { min: across.minMm, max: across.maxMm },
    exposed,
  };
}

function centredOn(outline: Outline, other: Outline): Outline {
  const [fromX, fromY] = centroidMm(outline);
  const [toX, toY] = centroidMm(other);
  return moved(outline, [toX - fromX, toY - fromY]);
}
