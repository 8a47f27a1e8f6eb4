import type { Topic } from "../topic.ts";
import { type EmptyingForecast, type EmptyingInput, emptying } from "./emptying.ts";
import { emptyingSchema, planSchema } from "./input.ts";
import { type OutingPlan, outingPlan, type PlanInput } from "./plan.ts";

const twoDays = {
  stomaType: "ileostomy",
  pouchCapacityMl: 500,
  night: "pouch",
  sleep: { from: "22:30", to: "06:30" },
  timeZone: "Europe/London",
  empties: [
    { at: "2026-11-23T06:40:00Z", fraction: 0.5 },
    { at: "2026-11-23T10:15:00Z", fraction: 0.33 },
    { at: "2026-11-23T13:50:00Z", volumeMl: 210 },
    { at: "2026-11-23T15:00:00Z", gas: true },
    { at: "2026-11-23T18:05:00Z", fraction: 0.33 },
    { at: "2026-11-23T22:20:00Z", fraction: 0.5 },
    { at: "2026-11-24T06:35:00Z", fraction: 0.5 },
    { at: "2026-11-24T11:00:00Z", fraction: 0.25 },
    { at: "2026-11-24T14:40:00Z", fraction: 0.5 },
    { at: "2026-11-24T19:10:00Z", fraction: 0.33 },
    { at: "2026-11-24T22:25:00Z", fraction: 0.33 },
    { at: "2026-11-25T06:50:00Z", fraction: 0.5 },
  ],
  lastEmptiedAt: "2026-11-25T06:50:00Z",
};

export const emptyingTopic: Topic<EmptyingInput, EmptyingForecast> = {
  name: "emptying",
  summary: "A log of emptyings: output round the clock, when the pouch fills, the night, quiet hours.",
  example: twoDays,
  schema: emptyingSchema,
  run: (input) => emptying(input),
};

export const planTopic: Topic<PlanInput, OutingPlan> = {
  name: "plan",
  summary: "A log of emptyings and a day out: when to empty, and what to carry.",
  example: { ...twoDays, outing: { from: "2026-11-25T09:00:00Z", to: "2026-11-25T18:30:00Z" } },
  schema: planSchema,
  run: (input) => outingPlan(input),
};
