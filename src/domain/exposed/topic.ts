import type { Topic } from "../topic.ts";
import { type ExposedInput, type ExposedSkin, exposedSkin } from "./exposed.ts";
import { exposedSchema } from "./input.ts";

export const exposedTopic: Topic<ExposedInput, ExposedSkin> = {
  name: "exposed",
  summary: "The skin between an opening and the stoma in it: area and gaps, all round and by clock hour.",
  example: {
    stoma: { guide: { shape: "oval", lengthMm: 30, widthMm: 24, tiltDeg: 0 } },
    opening: { guide: { shape: "round", diameterMm: 33 } },
    offsetMm: [1, 0],
  },
  schema: exposedSchema,
  run: exposedSkin,
};
