import type { Topic } from "../topic.ts";
import { healingCurve } from "./healingCurve.ts";
import { healingInput, healingOfOvalInput } from "./input.ts";
import { healingOfOval, type OvalHealingInput, type OvalHealingResult } from "./oval.ts";
import type { HealingInput, HealingResult } from "./result.ts";

export const healingTopic: Topic<HealingInput, HealingResult> = {
  name: "healing",
  summary:
    "Sizes across since surgery in; healing curve, day the opening stops fitting, day to measure again out.",
  example: {
    readings: [
      { day: 6, diameterMm: 38.1, method: "guide", stepMm: 3.175 },
      { day: 13, diameterMm: 34.925, method: "guide", stepMm: 3.175 },
      { day: 20, diameterMm: 32.6, method: "tracing" },
      { day: 27, diameterMm: 31.4, method: "tracing" },
    ],
    opening: { diameterMm: 35.5 },
  },
  schema: healingInput,
  run: (input) => healingCurve(input),
};

export const healingOfOvalTopic: Topic<OvalHealingInput, OvalHealingResult> = {
  name: "healing-oval",
  summary:
    "Lengths and widths of an oval stoma in; a curve for each, and the day the opening first fails either out.",
  example: {
    lengthReadings: [
      { day: 7, diameterMm: 44, method: "tracing" },
      { day: 14, diameterMm: 41.5, method: "tracing" },
      { day: 21, diameterMm: 39.8, method: "tracing" },
    ],
    widthReadings: [
      { day: 7, diameterMm: 33, method: "tracing" },
      { day: 14, diameterMm: 31.8, method: "tracing" },
      { day: 21, diameterMm: 31, method: "tracing" },
    ],
    opening: { lengthMm: 43.8, widthMm: 35 },
  },
  schema: healingOfOvalInput,
  run: (input) => healingOfOval(input),
};
