import { z } from "zod";
import { cardScaleLimits, heightLimitsMm } from "./limits.ts";
import type { CardScale } from "./mapping/place.ts";

/** A picture to measure, as the command line takes it. */
export interface PhotoRequest {
  path: string;
  /** Height of the stoma above the skin, seen from the side. */
  heightMm?: number;
  /** Measured over nominal length of the printed card's bars. */
  cardScale?: CardScale;
}

const scaleSchema = z.number().min(cardScaleLimits.least).max(cardScaleLimits.most);

export const photoRequestSchema = z.strictObject({
  path: z.string().min(1),
  heightMm: z.number().min(heightLimitsMm.least).max(heightLimitsMm.most).optional(),
  cardScale: z.strictObject({ x: scaleSchema, y: scaleSchema }).optional(),
}) satisfies z.ZodType<PhotoRequest>;
