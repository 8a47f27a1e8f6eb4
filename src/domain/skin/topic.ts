import type { Topic } from "../topic.ts";
import { skinSchema } from "./input.ts";
import { type SkinAreas, type SkinInput, skinAreas } from "./skin.ts";

export const skinTopic: Topic<SkinInput, SkinAreas> = {
  name: "skin",
  summary:
    "How much skin each finding covers: in all, under the barrier and where the opening left skin bare.",
  example: {
    stoma: { guide: { shape: "round", diameterMm: 30 } },
    opening: { guide: { shape: "round", diameterMm: 38 } },
    barrier: { shape: "round", diameterMm: 100 },
    findings: [
      { what: "redderOrDarker", place: { hours: { from: 4, to: 8 }, reachMm: { from: 0, to: 8 } } },
      { what: "surfaceGone", place: { hours: { from: 6, to: 6 }, reachMm: { from: 0, to: 4 } } },
    ],
  },
  schema: skinSchema,
  run: skinAreas,
};
