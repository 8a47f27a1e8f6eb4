import type { Topic } from "../topic.ts";
import { openingSchema } from "./input.ts";
import { type Opening, type OpeningInput, openingFor } from "./opening.ts";

export const openingTopic: Topic<OpeningInput, Opening> = {
  name: "opening",
  summary:
    "The opening to cut for a stoma: the parallel curve, the path for scissors, whether a barrier allows it.",
  example: {
    stoma: { guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg: 0 } },
    clearanceMm: 2,
    barrier: { shape: "round", diameterMm: 100 },
    maxOpeningMm: 60,
    starterHoleMm: 13,
  },
  schema: openingSchema,
  run: (input) => openingFor(input),
};
