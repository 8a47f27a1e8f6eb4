import { describe, expect, it } from "vitest";
import { calibrate } from "../../../test/calibration/calibrate.ts";
import { populations } from "../../../test/calibration/population.ts";
import { defaultProtocol } from "../protocol/index.ts";

/** A small, seeded edition of the table in docs/change-interval.md. */
const options = { people: 300, plannedDays: 3.5, seed: 20_240_117 };
const named = (name: string) => populations.find((population) => population.name === name)!;

describe("change intervals keep their word", () => {
  for (const name of ["matched", "sooner"])
    for (const wears of [0, 1, 3, 10])
      it(`80 % limits hold the person's own day in 75 to 85 of 100: ${name}, ${wears} wears`, () => {
        const { coverage, coverageShown, risk } = calibrate(named(name), wears, options);
        expect(coverage).toBeGreaterThan(0.75);
        expect(coverage).toBeLessThan(0.85);
        expect(coverageShown).toBeGreaterThan(0.75);
        expect(coverageShown).toBeLessThan(0.85);
        expect(risk).toBeLessThan(defaultProtocol.riskTarget + 0.02);
      });

  it("keep the accepted risk where lives follow another law than the model's", () => {
    for (const wears of [0, 1, 3, 10])
      expect(calibrate(named("otherLaw"), wears, { ...options, people: 150 }).risk).toBeLessThan(
        defaultProtocol.riskTarget + 0.02,
      );
  });

  it("would be caught out: people whose seals fail far sooner leave the band before their wears are known", () => {
    expect(calibrate(named("muchSooner"), 0, options).risk).toBeGreaterThan(
      defaultProtocol.riskTarget + 0.02,
    );
  });
});
