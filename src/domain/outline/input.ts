import { z } from "zod";
import type { Shape } from "./shape.ts";

/** A place in mm: x to the person's left, y to the head. */
export const pointSchema = z.tuple([z.number(), z.number()]);

const guideSchema = z.discriminatedUnion(
  "shape",
  [
    z.strictObject({ shape: z.literal("round"), diameterMm: z.number().positive() }),
    z.strictObject({
      shape: z.literal("oval"),
      lengthMm: z.number().positive(),
      widthMm: z.number().positive(),
      tiltDeg: z.number(),
    }),
  ],
  { error: '"round" or "oval"' },
);

/** An outline or a guide reading, and only one of them. */
export const shapeSchema = z
  .strictObject({ outline: z.array(pointSchema).optional(), guide: guideSchema.optional() })
  .refine((shape) => (shape.outline === undefined) !== (shape.guide === undefined), {
    error: "is not one shape",
    params: { expected: "either outline or guide" },
  }) as unknown as z.ZodType<Shape>;
