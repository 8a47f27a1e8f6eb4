/**
 * Renewal counts, reorder points and the newsvendor rule against independent software.
 * @source scipy.stats 1.10.1; renewals by Stieltjes convolution with Richardson extrapolation, checked there by 10^7
 * simulated runs; shape 1 equals the Poisson law
 */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import {
  countMean,
  countQuantile,
  newsvendor,
  renewalCounts,
  reorderPoint,
  reorderPointPoisson,
} from "../../src/domain/supplies/index.ts";

const reference = JSON.parse(
  readFileSync(new URL("./data/08-inventory.json", import.meta.url), "utf8"),
) as Reference;

interface Reference {
  renewal: {
    shape: number;
    scale: number;
    horizon_days: number;
    planned_change_at: number | null;
    expected_renewals: number;
    percentiles: Record<string, number>;
    pmf: number[];
  }[];
  reorder_normal: {
    mean_per_day: number;
    sd_per_day: number;
    lead_days: number;
    sd_lead_days: number;
    service_level: number;
    reorder_point: number;
  }[];
  reorder_poisson: {
    mean_per_day: number;
    lead_days: number;
    service_level: number;
    reorder_point: number;
  }[];
  newsvendor: {
    underage_cost: number;
    overage_cost: number;
    demand: { kind: "normal"; mean: number; sd: number } | { kind: "poisson"; mean: number };
    q: number;
  }[];
}

describe("completed wears within a horizon", () => {
  it.each(reference.renewal)(
    "shape $shape, scale $scale, planned $planned_change_at: expected number, law and percentiles",
    ({ shape, scale, horizon_days, planned_change_at, expected_renewals, percentiles, pmf }) => {
      const law = { shape, scaleDays: scale, plannedDays: planned_change_at };
      const counts = renewalCounts(law, horizon_days);
      expect(Math.abs(countMean(counts) - expected_renewals)).toBeLessThan(1e-6);
      const errors = pmf.map((chance, n) => Math.abs((counts[n] ?? 0) - chance));
      expect(Math.max(...errors)).toBeLessThan(1e-6);
      for (const [p, count] of Object.entries(percentiles)) {
        expect(countQuantile(counts, Number(p))).toBe(count);
      }
    },
  );
});

it.each(reference.reorder_normal)(
  "reorder point at $mean_per_day a day, $lead_days days, $service_level",
  ({ mean_per_day, sd_per_day, lead_days, sd_lead_days, service_level, reorder_point }) => {
    const point = reorderPoint(
      { meanPerDay: mean_per_day, sdPerDay: sd_per_day },
      { leadDays: lead_days, sdLeadDays: sd_lead_days },
      service_level,
    );
    expect(Math.abs(point / reorder_point - 1)).toBeLessThan(1e-9);
  },
);

it.each(reference.reorder_poisson)(
  "reorder point of a slow mover at $mean_per_day a day, $lead_days days, $service_level",
  ({ mean_per_day, lead_days, service_level, reorder_point }) => {
    expect(reorderPointPoisson(mean_per_day, lead_days, service_level)).toBe(reorder_point);
  },
);

it.each(reference.newsvendor)(
  "newsvendor, $demand.kind of mean $demand.mean",
  ({ underage_cost, overage_cost, demand, q }) => {
    const stock = newsvendor({ underage: underage_cost, overage: overage_cost }, demand);
    expect(Math.abs(stock / q - 1)).toBeLessThan(1e-9);
  },
);
