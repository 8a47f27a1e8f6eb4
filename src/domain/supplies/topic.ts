import type { Topic } from "../topic.ts";
import { suppliesSchema } from "./input.ts";
import { type Supplies, type SuppliesInput, supplies } from "./supplies.ts";

export const suppliesTopic: Topic<SuppliesInput, Supplies> = {
  name: "supplies",
  summary: "What a person needs until a horizon, when to order it and when it would run out.",
  example: {
    items: [
      { id: "barrier", perChange: 1, boxSize: 10, onHand: 6, allowancePerMonth: 20 },
      { id: "pouch", perChange: 1, boxSize: 10, onHand: 14 },
      { id: "paste", perChange: 0.1, boxSize: 1, onHand: 1.5, expires: 300 },
    ],
    wear: { shape: 2, scale: 8 },
    plannedChangeDays: 3.5,
    currentWearDays: 1,
    horizonDays: 30,
    leadTimeDays: 7,
    serviceLevel: 0.95,
  },
  schema: suppliesSchema,
  run: (input) => supplies(input),
};
