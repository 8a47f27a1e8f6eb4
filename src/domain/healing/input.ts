import { z } from "zod";
import { readingMethods } from "./readings.ts";

/** One size across, as {@link HealingReading}. */
export const healingReadingSchema = z
  .strictObject({
    day: z.number().min(0),
    diameterMm: z.number(),
    sdMm: z.number().min(0).optional(),
    method: z.enum(readingMethods).optional(),
    stepMm: z.number().positive().optional(),
  })
  .superRefine(({ method, stepMm }, context) => {
    if (stepMm === undefined || method === undefined || method === "guide") return;
    context.addIssue({
      code: "custom",
      path: ["stepMm"],
      message: "belongs to a guide reading only",
      params: { expected: 'method "guide"' },
    });
  });

const shared = {
  surgeryOn: z.iso.date().optional(),
  maxGapMm: z.number().min(0).optional(),
  prior: z.enum(["weak", "none"]).optional(),
};

/** Input of {@link healingCurve}. */
export const healingInput = z.strictObject({
  ...shared,
  readings: z.array(healingReadingSchema).min(1),
  opening: z.strictObject({ diameterMm: z.number() }).optional(),
  startMm: z.number().optional(),
});

/** Input of {@link healingOfOval}. */
export const healingOfOvalInput = z.strictObject({
  ...shared,
  lengthReadings: z.array(healingReadingSchema).min(1),
  widthReadings: z.array(healingReadingSchema).min(1),
  opening: z.strictObject({ lengthMm: z.number(), widthMm: z.number() }).optional(),
});
