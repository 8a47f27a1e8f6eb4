import { booleanOpD, ClipType, EndType, FillRule, inflatePathsD, JoinType, type PathsD } from "clipper2-ts";
import { areaMm2 } from "./polygon.ts";
import type { Outline, Point } from "./shape.ts";

/**
 * What several outlines enclose together: outer edges counterclockwise, holes clockwise. General, exact to
 * a hundred-thousandth of a millimetre, and slower than the ways made for one outline.
 */
export type Region = readonly Outline[];

/** Decimals of a millimetre that are kept. */
const decimals = 5;
const arcToleranceMm = 0.0005;

export function union(a: Region, b: Region): Region {
  return combined(ClipType.Union, a, b);
}

export function intersection(a: Region, b: Region): Region {
  return combined(ClipType.Intersection, a, b);
}

export function difference(a: Region, b: Region): Region {
  return combined(ClipType.Difference, a, b);
}

/** A region grown by a distance in mm with round joins, or shrunk where it is negative; may fall apart. */

export function grown(region: Region, offsetMm: number): Region {
  return outlinesOf(
    inflatePathsD(pathsOf(region), offsetMm, JoinType.Round, EndType.Polygon, 2, decimals, arcToleranceMm),
  );
}

/** The part of a region that encloses most, without its holes; null where nothing is left. */
export function largestPart(region: Region): Outline | null {
  return region.reduce<Outline | null>(
    (largest, part) => (largest === null || areaMm2(part) > areaMm2(largest) ? part : largest),
    null,
  );
}

function combined(operation: ClipType, a: Region, b: Region): Region {
  return outlinesOf(booleanOpD(operation, pathsOf(a), pathsOf(b), FillRule.NonZero, decimals));
}

function pathsOf(region: Region): PathsD {
  return region.map((outline) => outline.map(([x, y]) => ({ x, y })));
}

function outlinesOf(paths: PathsD): Region {
  return paths.map((path) => path.map(({ x, y }): Point => [x, y]));
}
