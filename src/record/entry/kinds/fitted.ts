import { z } from "zod";

export const closures = ["drainable", "closed", "tap"] as const;
export type Closure = (typeof closures)[number];

/** A pouching system by its neutral attributes. */
export const pouchingSystem = z.strictObject({
  name: z.string().trim().min(1).max(120),
  pieces: z.enum(["one", "two"]),
  closure: z.enum(closures),
  barrier: z.enum(["flat", "convex"]),
  opening: z.enum(["cutToFit", "preCut", "mouldable"]),
  preCutMm: z.number().min(5).max(120).optional(),
  /** Widest opening that may be cut in it. */
  maxOpeningMm: z.number().min(5).max(150).optional(),
  starterHoleMm: z.number().min(1).max(60).optional(),
  /** Width of the barrier, mm across, where it is round. */
  barrierAcrossMm: z.number().min(20).max(250).optional(),
});
export type PouchingSystem = z.infer<typeof pouchingSystem>;

/** The pouching system in use from `at` on. */
export const fittedBody = z.strictObject({
  system: pouchingSystem,
  /** Planned change interval where it differs from the protocol's for this kind of system. */
  plannedIntervalDays: z.number().min(0.1).max(14).optional(),
  note: z.string().trim().max(2000).optional(),
});
