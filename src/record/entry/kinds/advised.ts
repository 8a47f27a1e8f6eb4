import { z } from "zod";

/** Advice that left the bench: what it rested on and the words shown. A later protocol never rewrites it. */
export const advisedBody = z.strictObject({
  what: z.enum(["cuttingSheet"]),
  sheetNumber: z.number().int().min(1),
  /** The measurement that was cut for, and the gap each side that was asked for. */
  measuredId: z.uuid(),
  clearanceMm: z.number().min(0).max(15),
  /** Entries it was computed from. */
  from: z.array(z.uuid()).min(1).max(100),
  protocolVersion: z.number().int().min(0),
  programVersion: z.string().max(40),
  words: z.array(z.string().max(400)).max(40),
  paper: z.enum(["A4", "Letter"]),
  printScale: z.strictObject({ x: z.number(), y: z.number() }).optional(),
});
