import { z } from "zod";

export const changedParts = ["barrier", "pouchOnly", "cap", "nightBag"] as const;
export type ChangedPart = (typeof changedParts)[number];

export const changeReasons = [
  "planned",
  "leakPastEdge",
  "leakUnderBarrier",
  "itchOrLifting",
  "other",
] as const;
export type ChangeReason = (typeof changeReasons)[number];

/** A change. Only a new barrier ends one wear and begins the next. */
export const changedBody = z.strictObject({
  what: z.enum(changedParts),
  why: z.enum(changeReasons),
  /** The system put on, where it is not the one fitted at the time. */
  systemName: z.string().trim().min(1).max(120).optional(),
  /** Clock hours at which it leaked; 12 toward the head, 3 at the person's left. */
  leakHours: z.array(z.number().int().min(1).max(12)).max(12).optional(),
  /** When the seal was last seen sound, if the leak was found later (instant). */
  lastSoundAt: z.iso.datetime().optional(),
  note: z.string().trim().max(2000).optional(),
});
