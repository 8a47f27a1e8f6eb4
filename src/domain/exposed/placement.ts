import type { Point } from "../outline/index.ts";
import type { HourSkin, SkinFigures } from "./exposed.ts";

/**
 * How far off centre an opening may be laid when each axis has a normal error of standard deviation 1: the
 * distances and weights of the six-point Gauss rule for the density r·exp(-r²/2), from its moments
 * 2^(k/2)·Γ(k/2 + 1) in 60 digits.
 */
const distances = [
  { sd: 0.24736883710814345, weight: 0.09600744014598396 },
  { sd: 0.7687766247136709, weight: 0.35921846774207766 },
  { sd: 1.4797235985920085, weight: 0.3891035405971091 },
  { sd: 2.3317935343259757, weight: 0.14116460104688716 },
  { sd: 3.323324938593967, weight: 0.014285800395816292 },
  { sd: 4.5304336282124655, weight: 0.0002201500721258076 },
];

/** Directions in which it may be laid off centre, evenly spread. */
const directions = Array.from({ length: 12 }, (_, at) => (at * Math.PI) / 6);

/**
 * Means of the figures over a two-dimensional normal placement error: six distances in twelve directions,
 * always the same 72. A product of two Gauss-Hermite rules would need hundreds of places for the same:
 * the largest gap grows like the distance off centre, with a point at 0 where a grid of x and y is poor.
 */
export function overPlacement(sdMm: number, figuresAt: (errorMm: Point) => SkinFigures): SkinFigures {
  const laid = distances.flatMap(({ sd, weight }) =>
    directions.map((direction) => ({
      weight: weight / directions.length,
      figures: figuresAt([sd * sdMm * Math.cos(direction), sd * sdMm * Math.sin(direction)]),
    })),
  );
  const mean = (read: (figures: SkinFigures) => number) =>
    laid.reduce((sum, { weight, figures }) => sum + weight * read(figures), 0);
  const meanIfAlways = (read: (figures: SkinFigures) => number | null) =>
    laid.some(({ figures }) => read(figures) === null) ? null : mean((figures) => read(figures)!);
  return {
    exposedSkinMm2: mean((figures) => figures.exposedSkinMm2),
    overlapMm2: mean((figures) => figures.overlapMm2),
    maxGapMm: mean((figures) => figures.maxGapMm),
    minGapMm: mean((figures) => figures.minGapMm),
    byClockHour: laid[0]!.figures.byClockHour.map(
      ({ hour }, at): HourSkin => ({
        hour,
        areaMm2: mean((figures) => figures.byClockHour[at]!.areaMm2),
        maxGapMm: meanIfAlways((figures) => figures.byClockHour[at]!.maxGapMm),
        minGapMm: meanIfAlways((figures) => figures.byClockHour[at]!.minGapMm),
      }),
    ),
  };
}
