import type { Topic } from "../topic.ts";
import { shapeSchema } from "./input.ts";
import { measureOutline, type OutlineMeasures } from "./measure.ts";
import type { Shape } from "./shape.ts";

export const outlineTopic: Topic<Shape, OutlineMeasures> = {
  name: "outline",
  summary: "Measures a stoma's outline: area, perimeter, centroid, hull and calliper widths.",
  example: { guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg: 20 } },
  schema: shapeSchema,
  run: measureOutline,
};
