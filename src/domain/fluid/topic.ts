import type { Topic } from "../topic.ts";
import { type FluidInput, type FluidResult, fluid } from "./fluid.ts";
import { fluidSchema, rehydrationSchema } from "./input.ts";
import { type Rehydration, type RehydrationInput, rehydration } from "./rehydration.ts";

export const fluidTopic: Topic<FluidInput, FluidResult> = {
  name: "fluid",
  summary: "Days of output, urine, drinks and weight against their limits; sodium lost, balance and trend.",
  example: {
    stomaType: "ileostomy",
    surgeryOn: "2026-10-28",
    birthDate: "1958-02-11",
    setting: "home",
    days: [
      { date: "2026-11-20", hoursCovered: 24, stomaMl: 900, urineMl: 1100, drinksMl: 1900, weightKg: 70.2 },
      { date: "2026-11-21", hoursCovered: 24, stomaMl: 1250, urineMl: 900, drinksMl: 2000, weightKg: 69.8 },
      { date: "2026-11-22", hoursCovered: 24, stomaMl: 1650, urineMl: 700, drinksMl: 2100, weightKg: 68.9 },
      { date: "2026-11-23", hoursCovered: 15, stomaMl: 1550 },
    ],
  },
  schema: fluidSchema,
  run: fluid,
};

export const rehydrationTopic: Topic<RehydrationInput, Rehydration> = {
  name: "rehydration",
  summary: "What a rehydration drink holds, from the grams in a litre, and which limits it meets.",
  example: { gramsPerL: { sodiumChloride: 3.5, sodiumBicarbonate: 2.5, glucose: 20 } },
  schema: rehydrationSchema,
  run: (input) => rehydration(input),
};
