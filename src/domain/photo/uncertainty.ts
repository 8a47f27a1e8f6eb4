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
  blurMm: number;
}

/** Weights of the parts, found on rendered photographs: see docs/photo.md. */
const weight = { body: 0.8, drawnIn: 0.25, slack: 0.3, card: 1.2, roughness: 1, blur: 0.3, leastMm: 0.5 };
/** A normal error lies within this many standard deviations in four of five cases. */
const fourOfFive = 1.28;

/** Half the width of the interval that holds four of five true diameters. */
export function uncertaintyOf({ bodySpreadMm, drawnInMm, cardErrorMm, quality, blurMm }: Doubts): number {
  const squares =
    (weight.body * bodySpreadMm) ** 2 +
    (weight.drawnIn * drawnInMm) ** 2 +
    (weight.slack * quality.slackMm) ** 2 +
    (weight.card * cardErrorMm) ** 2 +
    (weight.roughness * quality.roughnessMm) ** 2 +
    (weight.blur * blurMm) ** 2 +
    weight.leastMm ** 2;
  return fourOfFive * Math.sqrt(squares);
}
