import { z } from "zod";

/** Schemas that several routes share. */
export const personParams = z.object({ personId: z.uuid() });
export const stomaParams = z.object({ personId: z.uuid(), stomaId: z.uuid() });

const faultSchema = z.object({
  path: z.string(),
  problem: z.string(),
  got: z.unknown(),
  expected: z.string(),
});

/** Every answer that is not what was asked for. */
export const errorSchema = z
  .object({
    error: z.object({
      code: z.string(),
      sentence: z.string(),
      faults: z.array(faultSchema).optional(),
      existing: z.record(z.string(), z.unknown()).optional(),
      id: z.string().optional(),
    }),
  })
  .describe("What is wrong, as a code and as a sentence; the fields at fault where there are any");

/** A draft of an entry; the record checks it and names every fault. */
export const draftSchema = z
  .unknown()
  .describe("An entry without clinicId, by and recordedAt: see docs/record-format.md");
