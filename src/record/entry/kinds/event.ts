import { z } from "zod";

export const happenings = [
  "died",
  "reversed",
  "revised",
  "admitted",
  "discharged",
  "pregnancy",
  "hernia",
  "chemotherapy",
  "medicine",
  "irrigation",
  "movedAway",
] as const;
export type Happening = (typeof happenings)[number];

/** Something in the person's life that changes what the lists may ask. */
export const eventBody = z.strictObject({
  what: z.enum(happenings),
  note: z.string().trim().max(2000).optional(),
});
