import { refuse } from "../fault.ts";
import type { Outline } from "../outline/index.ts";
import { type Homography, homographyOf, mapped } from "./mapping/homography.ts";
import type { PixelPoint } from "./picture/pixels.ts";

/** Corners of a card of the size of a bank card, marked by hand: clockwise as seen, starting with a long side. */
export type FourCorners = readonly [PixelPoint, PixelPoint, PixelPoint, PixelPoint];

/** @source ISO/IEC 7810, ID-1: 85.60 × 53.98 mm */
export const id1Card = { widthMm: 85.6, heightMm: 53.98 } as const;

/** Millimetres on the plane of a card of known size, where no frame card is at hand. */
export interface CardPlane {
  /** Card's middle is the origin, x along its long side, y toward its first long side. */
  toMm(pixel: PixelPoint): readonly [xMm: number, yMm: number];
  outlineMm(pixels: readonly PixelPoint[]): Outline;
  /**
   * What a length on that plane is uncertain by, in four of five cases, from corners marked to within `cornerPx`.
   * Parallax comes on top: the card must lie on the skin beside the stoma.
   */
  uncertaintyMm(lengthMm: number): number;
}

/** Corners of a hand-marked card are rounded (radius about 3 mm) and set by eye. */
const cornerMm = 0.7;
/** A normal error lies within this many standard deviations in four of five cases. */
const fourOfFive = 1.28;

/**
 * Scales a picture by a card of known size whose four corners somebody marked. Much less sure than the frame card:
 * four corners set by eye, no check that the card lies flat, and the stoma outside of it.
 * @throws InputError where the corners do not go round a card-like shape
 */
export function scaleFromCard(corners: FourCorners): CardPlane {
  if (!goesRound(corners)) {
    refuse(
      "corners",
      "do not go round a card",
      corners,
      "four corners, one after the other, of a convex shape",
    );
  }
  const [w, h] = [id1Card.widthMm / 2, id1Card.heightMm / 2];
  const onCard = [
    [-w, h],
    [w, h],
    [w, -h],
    [-w, -h],
  ] as const;
  const map: Homography = homographyOf(corners.map((from, at) => ({ from, to: onCard[at]! })));
  const toMm = (pixel: PixelPoint) => mapped(map, pixel);
  // Two corners at each end of the long side, each off by `cornerMm`: the ends' means are off by its root half.
  const scaleError = cornerMm / id1Card.widthMm;
  return {
    toMm,
    outlineMm: (pixels) => pixels.map(toMm),
    uncertaintyMm: (lengthMm) => fourOfFive * Math.hypot(lengthMm * scaleError, cornerMm * Math.SQRT1_2),
  };
}

function goesRound(corners: FourCorners): boolean {
  const turns = corners.map((a, at) => {
    const [b, c] = [corners[(at + 1) % 4]!, corners[(at + 2) % 4]!];
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
  });
  return turns.every((turn) => turn > 0) || turns.every((turn) => turn < 0);
}
