import { z } from "zod";
import { endings } from "../wear/index.ts";
import type { SuppliesInput } from "./supplies.ts";

const days = z.number().min(0).max(1000);
/** A closed pouch changed three times a day wears a third of a day; nothing is meant to last much less. */
const shortestWearDays = 0.1;
const pieces = z.number().min(0).max(100_000);

const item = z
  .strictObject({
    id: z.string().min(1).max(80),
    perChange: z.number().gt(0).max(100),
    boxSize: z.number().int().min(1).max(10_000),
    onHand: pieces,
    allowancePerMonth: pieces.optional(),
    expires: z.number().int().min(-1000).max(10_000).optional(),
    lots: z
      .array(z.strictObject({ pieces, expiresInDays: z.number().int().min(-1000).max(10_000).nullable() }))
      .max(50)
      .optional(),
  })
  .superRefine(({ onHand, lots }, context) => {
    if (!lots) return;
    const sum = lots.reduce((total, lot) => total + lot.pieces, 0);
    if (Math.abs(sum - onHand) < 1e-6) return;
    context.addIssue({
      code: "custom",
      path: ["lots"],
      message: `add up to ${sum}`,
      params: { expected: `onHand, ${onHand}` },
    });
  });

export const suppliesSchema: z.ZodType<SuppliesInput> = z.strictObject({
  items: z.array(item).min(1).max(100),
  wear: z.union([
    z.strictObject({ shape: z.number().min(0.2).max(20), scale: z.number().min(shortestWearDays).max(400) }),
    z.strictObject({
      wears: z
        .array(
          z.strictObject({
            days: z.number().min(0).max(1000),
            ended: z.enum(endings),
            foundAfterDays: z.number().min(0).max(1000).optional(),
          }),
        )
        .max(10_000),
    }),
  ]),
  plannedChangeDays: z.number().min(shortestWearDays).max(60).optional(),
  currentWearDays: days.optional(),
  horizonDays: z.number().min(0.1).max(400),
  leadTimeDays: z.number().min(0).max(200),
  serviceLevel: z.number().min(0.5).max(0.9999),
});
