import { z } from "zod";
import type { Shape } from "./shape.ts";

/** Beyond ten kilometres the formulas no longer hold a hundredth of a millimetre. */
const farthestMm = 1e7;

/** A coordinate or a signed length. */
export const coordinateSchema = z.number().min(-farthestMm).max(farthestMm);

export const lengthSchema = z.number().positive().max(farthestMm);

/** A place in mm: x to the person's left, y to the head. */
export const pointSchema = z.tuple([coordinateSchema, coordinateSchema]);

const guideSchema = z.discriminatedUnion(
  "shape",
  [
    z.strictObject({ shape: z.literal("round"), diameterMm: lengthSchema }),
    z.strictObject({
      shape: z.literal("oval"),
      lengthMm: lengthSchema,
      widthMm: lengthSchema,
      tiltDeg: z.number().min(-360).max(360),
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
