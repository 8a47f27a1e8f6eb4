import { z } from "zod";
import type { CurveInterval } from "./curve.ts";
import { type EventEnding, endings, eventEndings, sealFailures, type Wear } from "./wear.ts";

/** Input of the `wear` topic. */
export interface WearInput {
  wears: Wear[];
  /** Endings that count as events; leaks past the edge when left out. */
  event?: EventEnding[];
  riskTarget?: number;
  tauDays?: number;
  interval?: CurveInterval;
  prior?: "weak" | "none";
  floorDays?: number;
  maxDays?: number;
  plannedDays?: number;
  referenceGroup?: string;
}

/** Beside a wear of millennia the others weigh nothing, and the search for a fit finds no end. */
const longestDays = 1e6;

const failing: ReadonlySet<string> = new Set(sealFailures);

const wearSchema = z
  .strictObject({
    days: z.number().min(0).max(longestDays),
    ended: z.enum(endings),
    foundAfterDays: z.number().min(0).max(longestDays).optional(),
    group: z.string().min(1).optional(),
  })
  .superRefine(({ days, ended, foundAfterDays }, context) => {
    if (foundAfterDays === undefined) return;
    if (foundAfterDays > days)
      context.addIssue({
        code: "custom",
        path: ["foundAfterDays"],
        message: "is later than the end of the wear",
        params: { expected: `at most days, ${days}` },
      });
    if (!failing.has(ended))
      context.addIssue({
        code: "custom",
        path: ["foundAfterDays"],
        message: "is given for a wear whose seal did not fail",
        params: { expected: `only with ${sealFailures.join(", ")}` },
      });
  });

export const wearInput: z.ZodType<WearInput> = z
  .strictObject({
    wears: z.array(wearSchema),
    event: z.array(z.enum(eventEndings)).min(1).optional(),
    riskTarget: z.number().gt(0).lt(1).optional(),
    tauDays: z.number().gt(0).max(longestDays).optional(),
    interval: z.enum(["log-log", "log", "plain"]).optional(),
    prior: z.enum(["weak", "none"]).optional(),
    floorDays: z.number().min(0).max(longestDays).optional(),
    maxDays: z.number().gt(0).max(longestDays).optional(),
    plannedDays: z.number().gt(0).max(longestDays).optional(),
    referenceGroup: z.string().optional(),
  })
  .superRefine(({ wears, referenceGroup }, context) => {
    if (referenceGroup === undefined || wears.some(({ group }) => group === referenceGroup)) return;
    context.addIssue({
      code: "custom",
      path: ["referenceGroup"],
      message: "is not the group of any wear",
      params: { expected: "one of the groups" },
    });
  });
