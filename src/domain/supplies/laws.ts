import type { PosteriorColumn } from "../wear/index.ts";
import type { WeightedLaw } from "./lasting.ts";

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
        law: { shape: Math.exp(mean("logShape")), scaleDays: Math.exp(mean("logScale")), plannedDays },
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
