import { z } from "zod";
import { photoPurposes } from "./photoPurposes.ts";

/**
 * What the person said to photographs being used. To measure from one that is not kept needs no more than their
 * taking part; everything beyond that is a purpose here. The last answer to each purpose holds.
 */
export const consentedBody = z
  .strictObject({
    about: z.literal("photographs"),
    purposes: z.array(z.enum(photoPurposes)).min(1).max(photoPurposes.length),
    /** False: refused or taken back. */
    given: z.boolean(),
    how: z.enum(["spoken", "written"]),
    by: z.enum(["person", "representative"]),
    representativeName: z.string().trim().min(1).max(120).optional(),
    note: z.string().trim().max(2000).optional(),
  })
  .refine(({ by, representativeName }) => by === "person" || representativeName !== undefined, {
    path: ["representativeName"],
    message: "is missing",
    params: { expected: "who spoke for the person" },
  });
