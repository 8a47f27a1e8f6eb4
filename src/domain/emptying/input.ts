import { z } from "zod";
import { type EmptyingInput, stomaTypes } from "./emptying.ts";
import type { PlanInput } from "./plan.ts";

/** Above this no vessel is meant. */
const mostMl = 100_000;
const mostEmpties = 5000;
/** A plan is for a day out or a few, and not for next month, when the output is another. */
const longestOutingDays = 3;
const furthestOutingDays = 14;

const instant = z.iso.datetime({ offset: true });
const clockTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, { message: "is not a time of day" });
const capacityMl = z.number().min(1).max(mostMl);

const timeZone = z.string().refine(isTimeZone, {
  message: "is not a time zone",
  params: { expected: "an IANA time zone such as Europe/London" },
});

const span = z.strictObject({ from: instant, to: instant }).superRefine(forwards);

const emptyingFields = z.strictObject({
  stomaType: z.enum(stomaTypes),
  empties: z
    .array(
      z.strictObject({
        at: instant,
        fraction: z.number().min(0).max(1).optional(),
        volumeMl: z.number().min(0).max(mostMl).optional(),
        gas: z.boolean().optional(),
        from: z.enum(["pouch", "nightBag"]).optional(),
      }),
    )
    .max(mostEmpties),
  pouchCapacityMl: capacityMl,
  night: z.enum(["pouch", "nightBag"]),
  nightCapacityMl: capacityMl.optional(),
  lastEmptiedAt: instant,
  sleep: z.strictObject({ from: clockTime, to: clockTime }),
  logGaps: z.array(span).max(1000).optional(),
  timeZone,
});

export const emptyingSchema: z.ZodType<EmptyingInput> = emptyingFields.superRefine(coherent);

export const planSchema: z.ZodType<PlanInput> = emptyingFields
  .extend({ outing: span, pouch: z.enum(["drainable", "closed"]).optional() })
  .superRefine((input, context) => {
    coherent(input, context);
    const { from, to } = input.outing;
    if (Date.parse(from) < Date.parse(input.lastEmptiedAt))
      fault(context, ["outing", "from"], "is before the last emptying", `at least ${input.lastEmptiedAt}`);
    if (Date.parse(from) - Date.parse(input.lastEmptiedAt) > furthestOutingDays * 86_400_000)
      fault(
        context,
        ["outing", "from"],
        "is too far ahead",
        `within ${furthestOutingDays} days of lastEmptiedAt`,
      );
    if (Date.parse(to) - Date.parse(from) > longestOutingDays * 86_400_000)
      fault(context, ["outing", "to"], "is too far from its beginning", `within ${longestOutingDays} days`);
  });

function coherent(input: EmptyingInput, context: z.RefinementCtx): void {
  const usesNightBag = input.night === "nightBag" || input.empties.some(({ from }) => from === "nightBag");
  if (usesNightBag && input.nightCapacityMl === undefined)
    fault(context, ["nightCapacityMl"], "is missing", "the night bag's capacity, since one is used");
  if (input.sleep.from === input.sleep.to)
    fault(context, ["sleep", "to"], "is when sleep begins", "another time than sleep.from");
  for (const [i, { at }] of input.empties.entries())
    if (Date.parse(at) > Date.parse(input.lastEmptiedAt))
      fault(context, ["empties", i, "at"], "is after the last emptying", `at most ${input.lastEmptiedAt}`);
}

function forwards({ from, to }: { from: string; to: string }, context: z.RefinementCtx): void {
  if (Date.parse(to) <= Date.parse(from)) fault(context, ["to"], "is not after from", `later than ${from}`);
}

function fault(context: z.RefinementCtx, path: (string | number)[], message: string, expected: string): void {
  context.addIssue({ code: "custom", path, message, params: { expected } });
}

function isTimeZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
