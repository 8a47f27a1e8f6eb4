import { z } from "zod";
import { pointSchema, shapeSchema } from "../outline/input.ts";
import type { ExposedInput } from "./exposed.ts";

export const exposedSchema: z.ZodType<ExposedInput> = z.strictObject({
  stoma: shapeSchema,
  opening: shapeSchema,
  offsetMm: pointSchema.optional(),
  placementSdMm: z.number().nonnegative().optional(),
});
