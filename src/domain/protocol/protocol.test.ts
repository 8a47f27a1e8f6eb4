import { describe, expect, it } from "vitest";
import {
  defaultProtocol,
  protocolDefinition,
  protocolDefinitions,
  protocolGroups,
  protocolKeys,
  protocolWith,
} from "./index.ts";

const certainties = [
  "read in the source",
  "second hand",
  "from memory",
  "common practice, no source",
  "judgement",
];

describe.each(protocolKeys)("%s", (key) => {
  const { label, unit, source, certainty, min, max, default: value } = protocolDefinition(key);

  it("says what it is, in what unit, and where it comes from", () => {
    expect(unit).not.toBe("");
    expect(label).toMatch(/^[A-Z][^.]+[^.\s]$/);
    expect(source).toMatch(/\w{4}/);
    expect(certainties).toContain(certainty);
  });

  it("has a default that the lead could have set", () => {
    expect(min).toBeLessThan(max);
    expect(value).toBeGreaterThanOrEqual(min);
    expect(value).toBeLessThanOrEqual(max);
  });

  it("is in force at its default until it is changed", () => {
    expect(defaultProtocol[key]).toBe(value);
    expect(protocolWith({ [key]: max })[key]).toBe(max);
  });
});

describe("the protocol", () => {
  it("shows every value in exactly one group", () => {
    const shown = Object.values(protocolGroups).flatMap((group) => Object.keys(group));
    expect(shown.sort()).toEqual(Object.keys(protocolDefinitions).sort());
    expect(new Set(shown).size).toBe(shown.length);
  });

  it("leaves every other value alone when one is changed", () => {
    const { maxGapMm: _changed, ...others } = protocolWith({ maxGapMm: 5 });
    const { maxGapMm: _default, ...defaults } = defaultProtocol;
    expect(others).toEqual(defaults);
  });

  // Check values of the facts: an eighth of an inch is 3.175 mm; gaps of 1/16 to 1/8 inch all round.
  it("starts from the values of its sources", () => {
    expect(defaultProtocol).toMatchObject({
      newStomaDays: 56,
      measureEveryDaysNew: 7,
      guideStepMm: 3.175,
      lowHeightIleostomyMm: 20,
      lowHeightColostomyMm: 5,
      maxGapMm: 3.2,
      shortWearHours: 48,
      barTolerancePercent: 0.5,
    });
  });

  it("never shows a value without a source that is not said to be habit or judgement", () => {
    for (const { source, certainty } of Object.values(protocolDefinitions)) {
      if (/no source/i.test(source)) expect(["judgement", "common practice, no source"]).toContain(certainty);
    }
  });
});
