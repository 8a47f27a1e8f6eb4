import type { PosteriorColumn } from "../wear/index.ts";
import { renewalCounts } from "./renewal.ts";
import type { WearLaw } from "./wearLaw.ts";

/** A law that may hold, and how likely it is to be the one. */
export interface WeightedLaw {
  law: WearLaw;
  weight: number;
}

/** Nobody changes more often than this for long, whatever a few slips of the keys say. */
const shortestDays = 0.05;
/** Laws that stand for a posterior: this many shapes, each with this many scales. */
const shapesKept = 5;
const scalesKept = 5;

/**
 * A posterior of a person's wear as a few laws of equal standing: shapes are grouped into parts of equal mass, the
 * scales of each part again, and each group is its mean. Enough for percentiles of counts, which are whole numbers.
 */
export function lawsOf(posterior: readonly PosteriorColumn[], plannedDays: number | null): WeightedLaw[] {
  const cells = posterior.flatMap(({ shape, firstLogScale, step, weights }) =>
    Array.from(weights, (weight, i) => ({
      logShape: Math.log(shape),
      logScale: firstLogScale + i * step,
      weight,
    })),
  );
  const byShape = equalParts(
    cells.sort((a, b) => a.logShape - b.logShape),
    shapesKept,
  );
  return byShape.flatMap((part) =>
    equalParts(
      part.sort((a, b) => a.logScale - b.logScale),
      scalesKept,
    ).map((group) => {
      const weight = group.reduce((sum, cell) => sum + cell.weight, 0);
      const mean = (key: "logShape" | "logScale") =>
        group.reduce((sum, cell) => sum + cell.weight * cell[key], 0) / weight;
      return {
        law: {
          shape: Math.exp(mean("logShape")),
          scaleDays: Math.max(shortestDays, Math.exp(mean("logScale"))),
          plannedDays,
        },
        weight,
      };
    }),
  );
}

/** Cuts a sorted list into parts of about the same weight. */
function equalParts<T extends { weight: number }>(sorted: readonly T[], count: number): T[][] {
  const total = sorted.reduce((sum, { weight }) => sum + weight, 0);
  const parts: T[][] = Array.from({ length: count }, () => []);
  let before = 0;
  for (const item of sorted) {
    const part = Math.min(count - 1, Math.floor(((before + item.weight / 2) / total) * count));
    parts[part]!.push(item);
    before += item.weight;
  }
  return parts.filter((part) => part.some(({ weight }) => weight > 0));
}

/** Steps for a count's law where many laws are mixed; the error is under 0.0001. */
const cellsMixed = 24;

/** Chances of 0, 1, 2, … completed wears within a horizon, over the laws that may hold. */
export function mixedCounts(
  laws: readonly WeightedLaw[],
  horizonDays: number,
  currentWearDays: number,
): number[] {
  const cells = laws.length > 1 ? cellsMixed : undefined;
  const mixed: number[] = [];
  for (const { law, weight } of laws) {
    renewalCounts(law, horizonDays, { currentWearDays, cells }).forEach((chance, n) => {
      mixed[n] = (mixed[n] ?? 0) + weight * chance;
    });
  }
  return mixed;
}
