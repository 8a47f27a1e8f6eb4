import { z } from "zod";
import { timeZone } from "../at.ts";

/** The clinic as it appears on sheets; the last entry holds. */
export const clinicBody = z.strictObject({
  name: z.string().trim().min(1).max(120),
  timeZone,
  nurse: z.strictObject({ id: z.uuid(), name: z.string().trim().min(1).max(120) }),
  nursePhone: z.string().trim().min(3).max(40),
  outOfHoursPhone: z.string().trim().min(3).max(40).optional(),
  emergencyNumber: z.string().trim().min(2).max(40).optional(),
  paper: z.enum(["A4", "Letter"]),
});
