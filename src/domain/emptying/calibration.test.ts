import { describe, expect, it } from "vitest";
import { outputCoverage } from "../../../test/calibration/outputCoverage.ts";
import { outputPopulations } from "../../../test/calibration/outputPopulation.ts";

/** A small, seeded edition of the table in docs/emptying.md; of 40 people, 80 in 100 are known to 6 points. */
const people = 40;
const named = (name: string) => outputPopulations.find((population) => population.name === name)!;

describe("80 % bands of the emptying forecast hold the truth in about 80 of 100", () => {
  it.each([2, 5])("after %i days of log", { timeout: 60_000 }, (days) => {
    const seen = outputCoverage(named("ileostomy"), days, people, 7);
    for (const share of [seen.daily, seen.third, seen.half]) {
      expect(share).toBeGreaterThan(0.65);
      expect(share).toBeLessThan(0.95);
    }
    expect(seen.hourly).toBeGreaterThan(0.7);
    expect(seen.hourly).toBeLessThan(0.9);
    expect(Math.abs(seen.nightStated - seen.nightSeen)).toBeLessThan(0.15);
    expect(seen.quiet).toBeGreaterThan(0.75);
  });
});
