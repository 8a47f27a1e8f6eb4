import { z } from "zod";
import { coordinateSchema, lengthSchema, pointSchema, shapeSchema } from "../outline/input.ts";
import type { OpeningInput } from "./opening.ts";

/** A wider curve than this is no curve that scissors are asked to follow, but a straight line. */
const widestCurveMm = 100;

const barrierSchema = z.discriminatedUnion(
  "shape",
  [
    z.strictObject({ shape: z.literal("round"), diameterMm: lengthSchema }),
    z.strictObject({ shape: z.literal("rectangle"), widthMm: lengthSchema, heightMm: lengthSchema }),
  ],
  { error: '"round" or "rectangle"' },
);

export const openingSchema: z.ZodType<OpeningInput> = z.strictObject({
  stoma: shapeSchema,
  clearanceMm: coordinateSchema,
  barrier: barrierSchema.optional(),
  maxOpeningMm: lengthSchema.optional(),
  starterHoleMm: lengthSchema.optional(),
  edgeMarginMm: coordinateSchema.nonnegative().optional(),
  scissorRadiusMm: z.number().nonnegative().max(widestCurveMm).optional(),
  barrierCentreMm: pointSchema.optional(),
});
