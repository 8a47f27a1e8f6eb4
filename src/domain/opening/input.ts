import { z } from "zod";
import { pointSchema, shapeSchema } from "../outline/input.ts";
import type { OpeningInput } from "./opening.ts";

const lengthMm = z.number().positive();

const barrierSchema = z.discriminatedUnion(
  "shape",
  [
    z.strictObject({ shape: z.literal("round"), diameterMm: lengthMm }),
    z.strictObject({ shape: z.literal("rectangle"), widthMm: lengthMm, heightMm: lengthMm }),
  ],
  { error: '"round" or "rectangle"' },
);

export const openingSchema: z.ZodType<OpeningInput> = z.strictObject({
  stoma: shapeSchema,
  clearanceMm: z.number(),
  barrier: barrierSchema.optional(),
  maxOpeningMm: lengthMm.optional(),
  starterHoleMm: lengthMm.optional(),
  edgeMarginMm: z.number().nonnegative().optional(),
  scissorRadiusMm: z.number().nonnegative().optional(),
  barrierCentreMm: pointSchema.optional(),
});
