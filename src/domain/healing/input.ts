import { z } from "zod";
import { readingMethods } from "./readings.ts";

/** Ten metres and three centuries: beside such numbers no curve has a likelihood that a double can hold. */
const largestMm = 1e4;
const latestDay = 1e5;

const sizeMm = z.number().min(-largestMm).max(largestMm);

/** One size across, as {@link HealingReading}. */
export const healingReadingSchema = z
  .strictObject({
    day: z.number().min(0).max(latestDay),
    diameterMm: sizeMm,
    sdMm: z.number().min(0).max(largestMm).optional(),
    method: z.enum(readingMethods).optional(),
    stepMm: z.number().positive().max(largestMm).optional(),
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
  maxGapMm: z.number().min(0).max(largestMm).optional(),
  prior: z.enum(["weak", "none"]).optional(),
};

/** Input of {@link healingCurve}. */
export const healingInput = z.strictObject({
  ...shared,
  readings: z.array(healingReadingSchema).min(1),
  opening: z.strictObject({ diameterMm: sizeMm }).optional(),
  startMm: sizeMm.optional(),
});

/** Input of {@link healingOfOval}. */
export const healingOfOvalInput = z.strictObject({
  ...shared,
  lengthReadings: z.array(healingReadingSchema).min(1),
  widthReadings: z.array(healingReadingSchema).min(1),
  opening: z.strictObject({ lengthMm: sizeMm, widthMm: sizeMm }).optional(),
});
