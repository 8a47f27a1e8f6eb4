import { describe, expect, it } from "vitest";
import { fluidOuncesToMl, kgToPounds, mlToFluidOunces, poundsToKg, stonesToKg } from "./index.ts";

describe("weights and volumes as people read them", () => {
  // Exact definitions; 10 lb = 4.5 kg is the weight change of the fitting rules.
  it.each([
    [1, 0.45359237],
    [10, 4.5359237],
    [154.324, 70.000188],
  ])("%d lb are %d kg", (pounds, kg) => {
    expect(poundsToKg(pounds)).toBeCloseTo(kg, 5);
    expect(kgToPounds(poundsToKg(pounds))).toBeCloseTo(pounds, 12);
  });

  it("eleven stone two are 156 lb", () => {
    expect(stonesToKg(11, 2)).toBe(poundsToKg(156));
  });

  it("a US fluid ounce is 29.5735295625 mL and an imperial one 28.4130625", () => {
    expect(fluidOuncesToMl(1, "us")).toBeCloseTo(29.5735295625, 10);
    expect(fluidOuncesToMl(1, "imperial")).toBeCloseTo(28.4130625, 10);
    for (const kind of ["us", "imperial"] as const)
      expect(mlToFluidOunces(fluidOuncesToMl(12, kind), kind)).toBeCloseTo(12, 12);
  });
});
