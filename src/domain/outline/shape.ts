import { refuse } from "../fault.ts";
import { findCrossing } from "./crossing.ts";
import { signedAreaMm2 } from "./polygon.ts";

/**
 * A place on the skin in millimetres, seen by somebody who faces the person: x grows to the person's left
 * (the viewer's right), y to the head. Twelve o'clock is +y, three o'clock +x.
 */
export type Point = readonly [xMm: number, yMm: number];

/** A closed line; the first point is not repeated at the end. */
export type Outline = readonly Point[];

/**
 * What was read from a measuring guide. At tilt 0 the length of an oval lies head to foot; a positive tilt
 * turns its head end toward the person's left (clockwise as the viewer sees it), so a mirror negates it.
 */
export type GuideReading =
  | { shape: "round"; diameterMm: number }
  | { shape: "oval"; lengthMm: number; widthMm: number; tiltDeg: number };

/** An opening or a stoma: its outline, or the guide reading it comes from. */
export type Shape = { outline: Outline } | { guide: GuideReading };

/**
 * Corners of a polygon made from a guide reading, one a degree. They stand on the curve itself, so the
 * calipers read the ring's own size and the polygon's area is 0.0051 % under the closed form.
 */
const guideCorners = 360;

/**
 * The outline of a shape: at least three points, counterclockwise as the viewer sees it, no point twice in a
 * row. The first point of a given outline stays the first.
 *
 * @param path where the shape stands in the input, for errors
 * @throws InputError with fewer than three different points, all points on one line, nothing of visible size,
 * or an outline that meets itself: then the fault names the two edges and the place in mm
 */
export function outlineOf(shape: Shape, path = ""): Outline {
  const inner = (field: string) => (path ? `${path}.${field}` : field);
  const outline =
    "guide" in shape ? guideOutline(shape.guide) : simpleOutline(shape.outline, inner("outline"));
  const area = signedAreaMm2(outline);
  if (!Number.isFinite(area)) refuse(path, "is too large to compute with", area, "an area that is finite");
  if (Math.abs(area) < leastAreaMm2) {
    refuse(path, "is too small to compute with", Math.abs(area), `an area of ${leastAreaMm2} mm2 or more`);
  }
  if (area > 0) return outline;
  // Looked at again the other way round, where rounding may tell a touch from a near miss: what is handed on
  // must be an outline to whoever checks it next.
  return simpleOutline([outline[0]!, ...outline.slice(1).reverse()], inner("outline"));
}

/** A speck: below this the smallest steps of the computations are no longer small. */
const leastAreaMm2 = 1e-4;

function guideOutline(guide: GuideReading): Outline {
  const [lengthMm, widthMm, tiltDeg] =
    guide.shape === "round"
      ? [guide.diameterMm, guide.diameterMm, 0]
      : [guide.lengthMm, guide.widthMm, guide.tiltDeg];
  const tilt = (tiltDeg * Math.PI) / 180;
  const [sin, cos] = [Math.sin(tilt), Math.cos(tilt)];
  return Array.from({ length: guideCorners }, (_, corner): Point => {
    const turn = (corner * 2 * Math.PI) / guideCorners;
    const along = (lengthMm / 2) * Math.cos(turn);
    const across = (-widthMm / 2) * Math.sin(turn);
    return [along * sin + across * cos, along * cos - across * sin];
  });
}

function simpleOutline(given: Outline, path: string): Outline {
  const points = withoutRepeats(given);
  if (points.length < 3) {
    refuse(path, "has too few different points", points.length, "at least 3 different points");
  }
  if (isFlat(points)) refuse(path, "encloses no area", 0, "points that do not all lie on one line");
  const crossing = findCrossing(points);
  if (crossing) {
    const [first, second] = crossing.edges.map((edge) => edgeName(edge, points, given));
    const [x, y] = crossing.atMm.map((mm) => Number(mm.toFixed(3)));
    const problem = `${crossing.kind} itself: ${first} and ${second} meet at (${x}, ${y}) mm`;
    refuse(path, problem, [x, y], "edges that meet only at the points they share");
  }
  return points;
}

/** Drops points that repeat the one before, and a last point that repeats the first. */
function withoutRepeats(points: Outline): Outline {
  const kept = points.filter((point, at) => at === 0 || !samePlace(point, points[at - 1]!));
  while (kept.length > 1 && samePlace(kept.at(-1)!, kept[0]!)) kept.pop();
  return kept;
}

function samePlace(a: Point, b: Point): boolean {
  return a[0] === b[0] && a[1] === b[1];
}

function isFlat(points: Outline): boolean {
  const [ax, ay] = points[0]!;
  const [bx, by] = points[1]!;
  return points.every(([x, y]) => (bx - ax) * (y - ay) === (by - ay) * (x - ax));
}

/** Edges are named by the points of the outline as it was given, counted from 0. */
function edgeName(edge: number, points: Outline, given: Outline): string {
  const from = points[edge]!;
  const to = points[(edge + 1) % points.length]!;
  return `edge ${given.indexOf(from)} from (${from.join(", ")}) to (${to.join(", ")})`;
}
