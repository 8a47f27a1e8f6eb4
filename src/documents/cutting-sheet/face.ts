import { parallelCurve } from "../../domain/opening/index.ts";
import {
  centroidMm,
  clockDirection,
  mirror,
  mirrorHour,
  type Outline,
  type Point,
  radiusAtClockHour,
} from "../../domain/outline/index.ts";
import type { CuttingSheet } from "./input.ts";
import { stretchesClearOf } from "./stretches.ts";

/** Which way a face looks: the skin (mirrored, the side that sticks) or you, who face the person. */
export type Side = "skin" | "you";

/** The lines of one face, in millimetres as they lie on paper: x to the right, y to the head. */
export interface Face {
  side: Side;
  /** Middle of the stoma: the clock's centre. */
  centre: Point;
  /** The cut: the inner edge of the heavy line lies exactly on it. */
  scissorPath: Outline;
  /** Outer edge of the heavy line. */
  lineEdge: Outline;
  stoma: Outline;
  /** The stoma's line where it can be told from the cut; all of it unless the gap is next to nothing. */
  stomaLines: Point[][];
  /** The opening's line where scissors cannot follow it. */
  openingLines: Point[][];
  /** Barrier to keep. */
  ring: Outline;
  hours: { hour: number; at: Point }[];
  extent: Extent;
}

/** Smallest and largest coordinates, in millimetres. */
export interface Extent {
  left: number;
  right: number;
  foot: number;
  head: number;
}

/** Width of the heavy line. A wider one makes the hole's size a matter of taste: 0.5 mm is 1 mm across. */
export const heavyLineMm = 0.3;

/** Lines nearer to the cut than this are left out, since they would only thicken it. */
const toldApartMm = 0.3;

/** Works out one face; the numbers of the clock stand in the barrier to keep, or round it where it is narrow. */
export function faceOf(sheet: CuttingSheet, side: Side): Face {
  const seen = (outline: Outline) => (side === "skin" ? mirror(outline) : outline);
  const [stoma, opening, scissorPath] = [seen(sheet.stoma), seen(sheet.opening), seen(sheet.scissorPath)];
  const { barrierMarginMm } = sheet.protocol;
  const ring = grown(scissorPath, barrierMarginMm);
  const hourTrack = grown(scissorPath, hourDistanceMm(barrierMarginMm));
  const centre = centroidMm(stoma);
  return {
    side,
    centre,
    scissorPath,
    lineEdge: grown(scissorPath, heavyLineMm),
    stoma,
    stomaLines: stretchesClearOf(stoma, scissorPath, toldApartMm),
    openingLines: stretchesClearOf(opening, scissorPath, toldApartMm),
    ring,
    hours: hoursOn(hourTrack, centre, side),
    extent: extentOf([...ring, ...hourTrack]),
  };
}

function hourDistanceMm(barrierMarginMm: number): number {
  const [roomForNumbersMm, numberMm] = [8, 3.2];
  return barrierMarginMm >= roomForNumbersMm ? barrierMarginMm / 2 : barrierMarginMm + numberMm;
}

/** Hour 3 is the person's left: on the right for you, on the left on the skin side. */
function hoursOn(track: Outline, centre: Point, side: Side): Face["hours"] {
  return Array.from({ length: 12 }, (_, index) => index + 1).flatMap((hour) => {
    const onPaper = side === "skin" ? mirrorHour(hour) : hour;
    const radius = radiusAtClockHour(track, onPaper, centre);
    if (radius === null) return [];
    const [dx, dy] = clockDirection(onPaper);
    return [{ hour, at: [centre[0] + radius * dx, centre[1] + radius * dy] as const }];
  });
}

/** An outline grown outward; growing never leaves nothing. */
function grown(outline: Outline, byMm: number): Outline {
  return parallelCurve(outline, byMm) ?? outline;
}

function extentOf(outline: Outline): Extent {
  const xs = outline.map(([x]) => x);
  const ys = outline.map(([, y]) => y);
  return { left: Math.min(...xs), right: Math.max(...xs), foot: Math.min(...ys), head: Math.max(...ys) };
}
