import type { Note } from "../note.ts";
import type { Outline } from "../outline/index.ts";
import type { Model } from "./mapping/place.ts";

/** What the printer made of the card: measured over nominal length of its bars. */
export interface CardUsed {
  scaleX: number;
  scaleY: number;
  /** True where nobody gave the measured bars and 1 was taken. */
  assumed: boolean;
}

/** The height that was reckoned with: told, or told by the picture alone. */
export interface HeightUsed {
  mm: number;
  spreadMm: number;
  told: boolean;
}

/** A stoma's base measured from a photograph, or the reasons why it is not. Every size is null where it is not. */
export interface PhotoMeasurement {
  usable: boolean;
  /** Why not, each with what to do differently; empty where it is usable. */
  reasons: Note[];
  /** What to know beside a size that is usable. */
  notes: Note[];
  markersFound: number;
  /** Between straight above and the line of sight to the card's middle. */
  tiltDeg: number | null;
  /** From the card's middle to the camera; rests on a usual lens where the card is seen from straight above. */
  distanceMm: number | null;
  /** Picture points a millimetre at the card's middle, the coarser way, in the picture as it was given. */
  pxPerMm: number | null;
  /** Base of the stoma on the skin: x to the person's left, y to the head, from the hole's middle; counterclockwise. */
  outline: Outline | null;
  areaMm2: number | null;
  equivalentDiameterMm: number | null;
  feretMaxMm: number | null;
  feretMinMm: number | null;
  /** Four of five true diameters lie within this of the one given. */
  uncertaintyMm: number | null;
  height: HeightUsed | null;
  card: CardUsed;
  /** How the card was understood to lie; `bendRadiusMm` null where it is flat. */
  lie: { model: Model; bendRadiusMm: number | null; heldOutMm: number } | null;
}
