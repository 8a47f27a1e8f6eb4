import type { Tip } from "./body/tip.ts";
import type { EdgeQuality } from "./edge/quality.ts";

/** What a size is uncertain by, part by part. */
export interface Doubts {
  /** From not knowing how the stoma rises over its base. */
  bodySpreadMm: number;
  /** By how much the base is smaller across than its silhouette: shapes that were not thought of grow with it. */
  drawnInMm: number;
  /** Of markers left out of the fit of the card. */
  cardErrorMm: number;
  quality: EdgeQuality;
  tip: Tip | null;
  /** How far the tip is seen from where it would be over the base's middle. */
  tipOffMm: number;
}

/** Weights of the parts, found on rendered photographs: see docs/photo.md. */
const weight = {
  body: 1,
  drawnIn: 0.1,
  slack: 0.4,
  edge: 0.3,
  lean: 0.35,
  card: 1.2,
  roughness: 1,
  leastMm: 0.42,
};
/** A normal error lies within this many standard deviations in four of five cases. */
const fourOfFive = 1.28;

/** Half the width of the interval that holds four of five true diameters. */
export function uncertaintyOf({
  bodySpreadMm,
  drawnInMm,
  cardErrorMm,
  quality,
  tip,
  tipOffMm,
}: Doubts): number {
  const squares =
    (weight.body * bodySpreadMm) ** 2 +
    (weight.drawnIn * drawnInMm) ** 2 +
    (weight.slack * quality.slackMm) ** 2 +
    (weight.edge * quality.edgeWidthMm) ** 2 +
    (weight.lean * leanOf(tip, tipOffMm)) ** 2 +
    (weight.card * cardErrorMm) ** 2 +
    (weight.roughness * quality.roughnessMm) ** 2 +
    weight.leastMm ** 2;
  return fourOfFive * Math.sqrt(squares);
}

/** A tip that is plainly seen further off than folds and dips explain: the stoma leans, and its top hides more of it. */
function leanOf(tip: Tip | null, tipOffMm: number): number {
  return tip !== null && tip.darkness > plainDarkness ? Math.max(0, tipOffMm - usualOffMm) : 0;
}

const plainDarkness = 0.25;
const usualOffMm = 2;
