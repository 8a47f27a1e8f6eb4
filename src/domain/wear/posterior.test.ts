import { describe, expect, it } from "vitest";
import { lifetimesOf } from "./lifetimes.ts";
import { type PosteriorColumn, type WearPrior, wearPosterior } from "./posterior.ts";
import { dayOfMeanRisk, meanRisk, quantileOfOwnDay, varianceOfLogOwnDay } from "./posteriorRisk.ts";
import type { Wear } from "./wear.ts";
import { type WeibullFit, weibullFit } from "./weibullFit.ts";
import { weibullLives } from "./weibullLikelihood.ts";

const prior: WearPrior = {
  logScale: { mean: Math.log(12), sd: 0.55 },
  logShape: { mean: Math.log(2), sd: 0.35 },
};
const target = 0.1;

const planned = (days: number): Wear => ({ days, ended: "planned" });
const leak = (days: number): Wear => ({ days, ended: "leak" });
const found = (foundAfterDays: number, days: number): Wear => ({ days, foundAfterDays, ended: "leak" });

const posteriorOf = (wears: Wear[]) => wearPosterior(weibullLives(lifetimesOf(wears)), prior);

const people: Record<string, Wear[]> = {
  "no wears": [],
  "one barrier changed as planned": [planned(3.5)],
  "one early leak": [leak(1.2)],
  "ten wears, three leaks": [...Array(7).fill(planned(3.5)), leak(2.1), leak(3), leak(3.3)],
  "leaks found between looks": [planned(3.5), planned(4), found(0, 2), found(2.5, 3.2), found(3, 3.4)],
};

describe("the posterior grid", () => {
  for (const [who, wears] of Object.entries(people))
    it(`agrees with a plain, much finer grid: ${who}`, () => {
      const posterior = posteriorOf(wears);
      const fine = plainGrid(wears);
      expect(dayOfMeanRisk(posterior, target) / dayOfMeanRisk(fine, target)).toBeCloseTo(1, 4);
      for (const p of [0.1, 0.5, 0.9]) {
        const ratio = quantileOfOwnDay(posterior, target, p) / quantileOfOwnDay(fine, target, p);
        expect(Math.abs(ratio - 1)).toBeLessThan(0.005);
      }
      expect(varianceOfLogOwnDay(posterior, target) / varianceOfLogOwnDay(fine, target)).toBeCloseTo(1, 3);
    });

  it("weighs to one", () => {
    for (const wears of Object.values(people)) {
      const total = posteriorOf(wears).reduce((sum, { weights }) => sum + weights.reduce((a, b) => a + b), 0);
      expect(total).toBeCloseTo(1, 12);
    }
  });

  it("comes to the maximum-likelihood day when there are very many wears", () => {
    const life = [planned(3.5), planned(4), planned(3.2), leak(2), leak(3.1), found(2.5, 3.6), planned(5)];
    const wears = Array.from({ length: 400 }, () => life).flat();
    const fit = weibullFit(lifetimesOf(wears)) as WeibullFit;
    const likeliest = fit.quantiles.find(({ p }) => p === target)!.days;
    expect(dayOfMeanRisk(posteriorOf(wears), target) / likeliest).toBeCloseTo(1, 2);
  });

  it("finds people far from anything the prior expected", () => {
    const lasting = Array.from({ length: 400 }, (_, i) => (i % 20 === 0 ? leak(300) : planned(400)));
    expect(meanRisk(posteriorOf(lasting), 30)).toBeLessThan(0.01);
    const failing = Array.from({ length: 400 }, (_, i) => leak(0.01 + i * 1e-5));
    expect(dayOfMeanRisk(posteriorOf(failing), target)).toBeLessThan(0.02);
  });
});

/** The same prior and likelihood by the textbook, on an even grid that asks nothing of the data. */
function plainGrid(wears: readonly Wear[]): PosteriorColumn[] {
  const size = 240;
  const reach = 6.5;
  const at = (i: number) => (2 * reach * i) / (size - 1) - reach;
  const step = (2 * reach * prior.logScale.sd) / (size - 1);
  const columns = Array.from({ length: size }, (_, i) => {
    const shape = Math.exp(prior.logShape.mean + at(i) * prior.logShape.sd);
    const weights = Float64Array.from({ length: size }, (__, j) => {
      const scale = Math.exp(prior.logScale.mean + at(j) * prior.logScale.sd);
      const survival = (t: number) => Math.exp(-((t / scale) ** shape));
      const likelihood = wears.reduce((product, { days, ended, foundAfterDays }) => {
        if (ended !== "leak") return product * survival(days);
        if (foundAfterDays !== undefined) return product * (survival(foundAfterDays) - survival(days));
        return product * (shape / scale) * (days / scale) ** (shape - 1) * survival(days);
      }, 1);
      return likelihood * Math.exp(-(at(i) ** 2 + at(j) ** 2) / 2);
    });
    return { shape, firstLogScale: prior.logScale.mean + at(0) * prior.logScale.sd, step, weights };
  });
  const total = columns.reduce((sum, { weights }) => sum + weights.reduce((a, b) => a + b), 0);
  return columns.map((column) => ({ ...column, weights: column.weights.map((w) => w / total) }));
}
