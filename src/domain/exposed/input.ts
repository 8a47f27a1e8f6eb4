import { z } from "zod";
import { coordinateSchema, pointSchema, shapeSchema } from "../outline/input.ts";
import type { ExposedInput } from "./exposed.ts";

export const exposedSchema: z.ZodType<ExposedInput> = z.strictObject({
  stoma: shapeSchema,
  opening: shapeSchema,
  offsetMm: pointSchema.optional(),
  placementSdMm: coordinateSchema.nonnegative().optional(),
});
