import { z } from "zod";
import { plainDate } from "../at.ts";

export const stomaTypes = ["ileostomy", "colostomy", "urostomy", "fistula", "other"] as const;
export type StomaType = (typeof stomaTypes)[number];

export const constructions = ["end", "loop", "doubleBarrel", "conduit", "other"] as const;
export type Construction = (typeof constructions)[number];

/** A stoma: its own surgery date and healing clock; a person may have several. The last entry holds. */
export const stomaBody = z.strictObject({
  type: z.enum(stomaTypes),
  construction: z.enum(constructions),
  /** Absent when nobody knows. */
  surgeryOn: z.strictObject({ date: plainDate, precision: z.enum(["day", "month", "year"]) }).optional(),
  side: z.enum(["right", "left", "middle"]).optional(),
  label: z.string().trim().max(60).optional(),
});
