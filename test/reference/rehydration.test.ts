/**
 * What rehydration drinks hold, against molar masses and the published rounded values of the recipes.
 * @source test/reference/data/09-rehydration.json: CIAAW abridged atomic weights, checked with periodictable 1.6.0;
 * WHO/UNICEF reduced-osmolarity salts (2002); glucose-saline of 90 mmol/L, Nightingale, World J Gastroenterol 2001;7:741
 */
import { describe, expect, it } from "vitest";
import { type GramsPerL, rehydration, type Substance } from "../../src/domain/fluid/index.ts";
import reference from "./data/09-rehydration.json" with { type: "json" };

const substances: Record<string, Substance> = {
  NaCl: "sodiumChloride",
  KCl: "potassiumChloride",
  NaHCO3: "sodiumBicarbonate",
  glucose_anhydrous: "glucose",
  glucose_monohydrate: "glucoseMonohydrate",
  trisodium_citrate_dihydrate: "trisodiumCitrateDihydrate",
};

const ions = {
  Na: "sodiumMmolPerL",
  Cl: "chlorideMmolPerL",
  K: "potassiumMmolPerL",
  glucose: "glucoseMmolPerL",
  citrate: "citrateMmolPerL",
  HCO3: "bicarbonateMmolPerL",
} as const;
type Ion = keyof typeof ions;

interface Solution {
  id: string;
  volume_l: number;
  substances: { substance: string; grams: number }[];
  mmol_per_l: Partial<Record<Ion, number>>;
  osmolarity_mosm_per_l: number;
  published_rounded?: Partial<Record<Ion | "total", number>>;
}
const solutions = reference.solutions as Solution[];

const drink = (gramsPerL: GramsPerL) => rehydration({ gramsPerL });
const gramsOf = ({ substances: parts, volume_l }: Solution): GramsPerL =>
  Object.fromEntries(parts.map(({ substance, grams }) => [substances[substance]!, grams / volume_l]));

describe.each(solutions.map((one) => [one.id, one] as const))("%s", (_id, solution) => {
  const made = drink(gramsOf(solution));

  it("holds what the molar masses say, to a millionth", () => {
    for (const [ion, expected] of Object.entries(solution.mmol_per_l) as [Ion, number][])
      expect(made[ions[ion]]).toBeCloseTo(expected, 6);
    expect(made.osmolarityMosmPerL).toBeCloseTo(solution.osmolarity_mosm_per_l, 6);
  });

  it("lies within 1.5 % of what is printed on the packet", () => {
    const { total, ...printed } = solution.published_rounded ?? {};
    for (const [ion, expected] of Object.entries(printed) as [Ion, number][])
      expect(Math.abs(made[ions[ion]] / expected - 1)).toBeLessThan(0.015);
    if (total !== undefined) expect(Math.abs(made.osmolarityMosmPerL / total - 1)).toBeLessThan(0.006);
  });
});

// Worked by hand from molar masses (NaCl 58.443, KCl 74.551, glucose 180.156, citrate 294.10, bicarbonate 84.007)
describe("recipes", () => {
  it.each([
    [
      "the older WHO salts",
      { sodiumChloride: 3.5, glucose: 20, potassiumChloride: 1.5, trisodiumCitrateDihydrate: 2.9 },
      89.47,
      310.47,
    ],
    ["90 with citrate", { sodiumChloride: 3.5, glucose: 20, trisodiumCitrateDihydrate: 2.9 }, 89.47, 270.23],
    ["much salt", { sodiumChloride: 7, glucose: 8 }, 119.77, 283.96],
  ])("%s", (_name, grams, sodium, osmolarity) => {
    const made = drink(grams);
    expect(Math.abs(made.sodiumMmolPerL - sodium)).toBeLessThan(0.05);
    expect(Math.abs(made.osmolarityMosmPerL - osmolarity)).toBeLessThan(0.2);
  });

  it("a gram of salt is 17.11 mmol of sodium", () => {
    expect(drink({ sodiumChloride: 1 }).sodiumMmolPerL).toBeCloseTo(17.11, 2);
  });

  it.each([
    [20, 22.0],
    [13.5, 14.85],
  ])("%d g of glucose are %d g of the monohydrate", (grams, monohydrateG) => {
    const { notes } = drink({ glucose: grams });
    const stated = notes.find(({ code }) => code === "glucoseKind")!.params.monohydrateG;
    expect(Math.abs(Number(stated) - monohydrateG)).toBeLessThan(0.01);
    expect(drink({ glucoseMonohydrate: Number(stated) }).glucoseMmolPerL).toBeCloseTo(
      drink({ glucose: grams }).glucoseMmolPerL,
      9,
    );
  });
});

describe("what a drink meets", () => {
  it("the WHO's salts are the WHO's, and too weak in sodium for a high output", () => {
    const { meets, notes } = drink({
      sodiumChloride: 2.6,
      glucose: 13.5,
      potassiumChloride: 1.5,
      trisodiumCitrateDihydrate: 2.9,
    });
    expect(meets.whoRehydrationSalts.met).toBe(true);
    expect(meets.highOutputDrink.met).toBe(false);
    expect(notes.map(({ code }) => code)).toContain("sodiumTooLow");
  });

  it("the mixture of 90 suits a high output, and its rounded grams are forgiven; it has no potassium", () => {
    const { meets, notes } = drink({ sodiumChloride: 3.5, sodiumBicarbonate: 2.5, glucose: 20 });
    expect(meets.highOutputDrink.met).toBe(true);
    expect(meets.whoRehydrationSalts.met).toBe(false);
    expect(notes.map(({ code }) => code)).toContain("noPotassium");
    expect(notes.map(({ code }) => code)).not.toContain("sodiumTooLow");
  });

  it("citrate put in gram for gram for bicarbonate falls below 90 (85.39) and is said", () => {
    const { sodiumMmolPerL, notes } = drink({
      sodiumChloride: 3.5,
      trisodiumCitrateDihydrate: 2.5,
      glucose: 20,
    });
    expect(Math.abs(sodiumMmolPerL - 85.39)).toBeLessThan(0.05);
    expect(notes.map(({ code }) => code)).toEqual(expect.arrayContaining(["sodiumTooLow", "notGramForGram"]));
  });

  it("sugar and half a teaspoon of salt, as wikis have it, is far too weak (35.9)", () => {
    const { sodiumMmolPerL, notes } = drink({ sucrose: 25.2, sodiumChloride: 2.1 });
    expect(Math.abs(sodiumMmolPerL - 35.9)).toBeLessThan(0.05);
    expect(notes.map(({ code }) => code)).toEqual(expect.arrayContaining(["sodiumTooLow", "sucrose"]));
  });

  it("water is no drink for it", () => {
    const made = drink({});
    expect([made.osmolarityMosmPerL, made.meets.highOutputDrink.met]).toEqual([0, false]);
  });
});
