import { z } from "zod";
import { shape } from "./shape.ts";

export const postures = ["lying", "sitting", "standing", "bending"] as const;

/** The stoma's base at the skin, as measured. */
export const measuredBody = z.strictObject({
  method: z.enum(["guide", "tracing", "typed"]),
  shape,
  /** Step between the guide's rings: the size lies in (reading − step, reading]. */
  stepMm: z.number().min(0.1).max(10).optional(),
  /** Standard uncertainty of a diameter, where the method states one. */
  sdMm: z.number().min(0).max(20).optional(),
  /** Height at the lowest side; below the skin is negative. */
  heightMm: z.number().min(-40).max(150).optional(),
  posture: z.enum(postures).optional(),
  /** Where a tracing came from, and how it was placed to scale. */
  source: z.string().trim().max(200).optional(),
  note: z.string().trim().max(2000).optional(),
});
