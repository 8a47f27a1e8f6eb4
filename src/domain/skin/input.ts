import { z } from "zod";
import { coordinateSchema, pointSchema, shapeSchema } from "../outline/input.ts";
import type { SkinInput } from "./skin.ts";

const hour = z.number().int().min(1).max(12);
const lengthMm = coordinateSchema.positive().max(1000);

export const skinPlaceSchema = z.union([
  z.strictObject({ outline: z.array(pointSchema).min(3).max(2000) }),
  z.strictObject({
    hours: z.strictObject({ from: hour, to: hour }),
    reachMm: z
      .strictObject({ from: coordinateSchema.nonnegative().max(1000), to: lengthMm })
      .refine(({ from, to }) => from < to, {
        path: ["to"],
        message: "is not beyond where it begins",
        params: { expected: "more than reachMm.from" },
      }),
  }),
]);

export const skinSchema: z.ZodType<SkinInput> = z.strictObject({
  stoma: shapeSchema,
  opening: shapeSchema.optional(),
  barrier: z
    .discriminatedUnion("shape", [
      z.strictObject({ shape: z.literal("round"), diameterMm: lengthMm }),
      z.strictObject({ shape: z.literal("rectangle"), widthMm: lengthMm, heightMm: lengthMm }),
    ])
    .optional(),
  barrierCentreMm: pointSchema.optional(),
  findings: z.array(z.strictObject({ what: z.string().min(1).max(40), place: skinPlaceSchema })).max(60),
});
