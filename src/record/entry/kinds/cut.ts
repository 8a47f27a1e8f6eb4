import { z } from "zod";
import { shape } from "./shape.ts";

/** An opening cut (or bought pre-cut, or moulded) and put into use at `at`. */
export const cutBody = z.strictObject({
  opening: shape,
  /** Gap each side that was intended, mm. */
  clearanceMm: z.number().min(-5).max(15).optional(),
  how: z.enum(["sheet", "byHand", "preCut", "moulded"]),
  /** The measurement it was cut from. */
  measuredId: z.uuid().optional(),
  note: z.string().trim().max(2000).optional(),
});
