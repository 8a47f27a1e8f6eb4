import { z } from "zod";
import { protocolChanges } from "../protocol/topic.ts";
import { type FluidInput, ownLimitKeys, stomaTypes } from "./fluid.ts";
import { substances } from "./molarMass.ts";
import type { RehydrationInput } from "./rehydration.ts";

/** More than this is no volume of a day. */
const mostMl = 1e6;
/** A clock change makes a day of 25 hours. */
const longestDayHours = 25;

const date = z.iso.date();
const ml = z.number().min(0).max(mostMl).optional();

export const fluidSchema: z.ZodType<FluidInput> = z
  .strictObject({
    days: z
      .array(
        z.strictObject({
          date,
          hoursCovered: z.number().min(0).max(longestDayHours),
          stomaMl: ml,
          urineMl: ml,
          drinksMl: ml,
          weightKg: z.number().gt(0).max(1000).optional(),
          halfFullEmpties: z.number().int().min(0).max(1000).optional(),
        }),
      )
      .max(1000),
    stomaType: z.enum(stomaTypes),
    surgeryOn: date.optional(),
    birthDate: date.optional(),
    setting: z.enum(["hospital", "home"]),
    pregnant: z.boolean().optional(),
    heartOrKidneyPlan: z.boolean().optional(),
    ownLimits: z
      .strictObject(
        Object.fromEntries(
          ownLimitKeys.map((key) => [key, z.number().gt(0).max(mostMl).optional()]),
        ) as Record<(typeof ownLimitKeys)[number], z.ZodOptional<z.ZodNumber>>,
      )
      .optional(),
    protocol: protocolChanges.optional(),
  })
  .superRefine(({ days }, context) => {
    const seen = new Set<string>();
    for (const [at, day] of days.entries()) {
      if (seen.has(day.date))
        context.addIssue({
          code: "custom",
          path: ["days", at, "date"],
          message: "is there twice",
          params: { expected: "each date once" },
        });
      seen.add(day.date);
    }
  });

const grams = z.number().min(0).max(1000).optional();

export const rehydrationSchema: z.ZodType<RehydrationInput> = z.strictObject({
  gramsPerL: z.strictObject(
    Object.fromEntries(substances.map((substance) => [substance, grams])) as Record<
      (typeof substances)[number],
      typeof grams
    >,
  ),
});
