import { greyOf, lightPlane } from "../picture/grey.ts";
import type { Pixels, Plane } from "../picture/pixels.ts";
import { sharpCorners } from "./corners.ts";
import { darkPatches } from "./dark.ts";
import { type Quad, quadOf } from "./quad.ts";
import { type ReadMarker, readMarker } from "./read.ts";

/** A marker of the card as it lies in the picture. */
export interface FoundMarker {
  id: number;
  /** Top left, top right, bottom right, bottom left of the marker, in pixels. */
  corners: Quad;
  /** How wide its edges are drawn out (standard deviation in pixels): blur of lens, hand and encoding. */
  edgeSpreadPx: number;
}

/** Sides of the windows that make dark patches stand out, as shares of the picture's longer side. */
const windowShares = [1 / 22, 1 / 60];
const smallestShare = 1 / 130;
const largestShare = 1 / 5;

/** Finds the card's markers, each at most once. The more certain reading of a marker counts. */
export function findMarkers(pixels: Pixels, light: Plane = lightPlane(pixels)): FoundMarker[] {
  const { width, height } = pixels;
  const longer = Math.max(width, height);
  const grey = greyOf(pixels);
  const best = new Map<number, FoundMarker & { wrong: number }>();
  for (const share of windowShares) {
    const patches = darkPatches(grey, {
      width,
      height,
      windowPx: Math.max(9, Math.round(longer * share)),
      smallestPx: Math.max(10, longer * smallestShare),
      largestPx: longer * largestShare,
    });
    for (const patch of patches) {
      const quad = quadOf(patch);
      const read = quad && readMarker(light, quad);
      const sharp = read && sharpened(light, read);
      if (!sharp) continue;
      const known = best.get(read.id);
      if (!known || read.wrongModules < known.wrong)
        best.set(read.id, { ...sharp, wrong: read.wrongModules });
    }
    if (best.size === 8) break;
  }
  return [...best.values()]
    .sort((a, b) => a.id - b.id)
    .map(({ id, corners, edgeSpreadPx }) => ({ id, corners, edgeSpreadPx }));
}

/** Twice, since the first lines start from whole pixels. */
function sharpened(light: Plane, { id, corners }: ReadMarker): FoundMarker | null {
  const once = sharpCorners(light, corners);
  const twice = once && sharpCorners(light, once.corners);
  return twice && { id, ...twice };
}
