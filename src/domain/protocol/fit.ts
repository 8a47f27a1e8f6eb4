import { defineProtocol } from "./definition.ts";

/** The opening and the skin it leaves bare. */
export const fitProtocol = defineProtocol({
  clearanceLiquidMm: {
    label: "Gap each side for liquid output (ileostomy, urostomy)",
    unit: "mm",
    default: 2,
    min: 0,
    max: 6,
    source:
      "Between the hospital sizing sheet of 2020 (1.6 to 3.2 mm each side) and the GI Society (1.6 to 2 mm)",
    certainty: "judgement",
  },
  clearanceFormedMm: {
    label: "Gap each side for formed stool (colostomy)",
    unit: "mm",
    default: 3,
    min: 0,
    max: 6,
    source: "Up to 3 mm where stool is formed",
    certainty: "common practice, no source",
  },
  maxGapMm: {
    label: "Skin bare on any side beyond this: the opening no longer fits",
    unit: "mm",
    cited: "{value} each side",
    default: 3.2,
    min: 1,
    max: 10,
    source: "Hospital health library sizing sheet (2020): 1/16 to 1/8 inch shown all round",
    certainty: "read in the source",
  },
  scissorRadiusMm: {
    label: "Smallest curve that scissors follow",
    unit: "mm",
    default: 3,
    min: 0.5,
    max: 10,
    source: "Curved scissors",
    certainty: "common practice, no source",
  },
  barrierMarginMm: {
    label: "Barrier to keep outside the opening",
    unit: "mm",
    default: 10,
    min: 3,
    max: 30,
    source: "At least 10 mm (3/8 inch) all round, inside any printed limit",
    certainty: "common practice, no source",
  },
  barTolerancePercent: {
    label: "A printed check bar may differ from its length by",
    unit: "%",
    default: 0.5,
    min: 0.1,
    max: 2,
    source: "Arithmetic: 0.5 % of a 35 mm hole is 0.2 mm",
    certainty: "judgement",
  },
});
