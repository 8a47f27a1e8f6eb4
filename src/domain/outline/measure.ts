import { calliperWidths, convexHull } from "./hull.ts";
import { areaMm2, centroidMm, perimeterMm } from "./polygon.ts";
import { type Outline, outlineOf, type Point, type Shape } from "./shape.ts";

export interface OutlineMeasures {
  areaMm2: number;
  perimeterMm: number;
  centroidMm: Point;
  convexHullAreaMm2: number;
  /** Greatest and least width between parallel jaws at any angle. */
  feretMaxMm: number;
  feretMinMm: number;
  /** Diameter of the circle of the same area. */
  equivalentDiameterMm: number;
  /** Extent head to foot and side to side, along the person's axes whatever the tilt of the shape. */
  lengthMm: number;
  widthMm: number;
  /** Counterclockwise as the viewer sees it. */
  outline: Outline;
}

export interface Dimensions {
  lengthMm: number;
  widthMm: number;
  feretMaxMm: number;
  feretMinMm: number;
}

/** Measures a shape. @throws InputError as `outlineOf` does */
export function measureOutline(shape: Shape): OutlineMeasures {
  const outline = outlineOf(shape);
  const area = areaMm2(outline);
  return {
    areaMm2: area,
    perimeterMm: perimeterMm(outline),
    centroidMm: centroidMm(outline),
    convexHullAreaMm2: areaMm2(convexHull(outline)),
    equivalentDiameterMm: 2 * Math.sqrt(area / Math.PI),
    ...dimensionsOf(outline),
    outline,
  };
}

/**
 * The sizes a nurse reads off: length (head to foot) and width (side to side) along the person's axes, and
 * the calliper widths, which for a tilted oval are its own length and width.
 */
export function dimensionsOf(outline: Outline): Dimensions {
  let [left, right, foot, head] = [Infinity, -Infinity, Infinity, -Infinity];
  for (const [x, y] of outline) {
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < foot) foot = y;
    if (y > head) head = y;
  }
  const { maxMm, minMm } = calliperWidths(convexHull(outline));
  return { lengthMm: head - foot, widthMm: right - left, feretMaxMm: maxMm, feretMinMm: minMm };
}
