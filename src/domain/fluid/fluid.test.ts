import { describe, expect, it } from "vitest";
import { defaultProtocol, protocolDefinition } from "../protocol/index.ts";
import { type FluidDay, type FluidInput, fluid } from "./index.ts";

const today = "2026-11-20";
const whole: FluidDay = { date: today, hoursCovered: 24 };
const settled: Omit<FluidInput, "days"> = {
  stomaType: "ileostomy",
  surgeryOn: "2025-01-10",
  birthDate: "1950-05-01",
  setting: "home",
};
const on = (day: Partial<FluidDay>, more: Partial<FluidInput> = {}) =>
  fluid({ ...settled, days: [{ ...whole, ...day }], ...more }).days[0]!;
const summary = (day: Partial<FluidDay>, more: Partial<FluidInput> = {}) => {
  const { level, reasons } = on(day, more);
  return [level, ...reasons.map(({ rule }) => rule)];
};
const daysFrom = (days: Partial<FluidDay>[], more: Partial<FluidInput> = {}) =>
  fluid({
    ...settled,
    days: days.map((day, i) => ({ ...whole, date: `2026-11-${String(i + 1).padStart(2, "0")}`, ...day })),
    ...more,
  });

// Nightingale 2022: over 1.5 to 2.0 L; Leicester: over 1200 mL of a new stoma; BSG 2006: over 3 L. Reaching counts.
describe("an ileostomy's output, both sides of each limit", () => {
  it.each([
    [1499, "none"],
    [1500, "nextContact", "outputHigh"],
    [1999, "nextContact", "outputHigh"],
    [2000, "sameDay", "outputVeryHigh"],
    [3000, "sameDay", "outputVeryHigh"],
    [3001, "now", "outputUrgent"],
  ])("settled: %i mL in a day: %s", (stomaMl, ...expected) => {
    expect(summary({ stomaMl })).toEqual(expected);
  });

  it.each([
    [1199, "none"],
    [1200, "nextContact", "outputWatch"],
    [1499, "nextContact", "outputWatch"],
    [1500, "nextContact", "outputHigh"],
  ])("new: %i mL in a day: %s", (stomaMl, ...expected) => {
    expect(summary({ stomaMl }, { surgeryOn: "2026-11-01" })).toEqual(expected);
  });

  it.each([
    ["2026-09-25", "nextContact"],
    ["2026-09-24", "none"],
    [undefined, "nextContact"],
  ])("is watched through day 56; surgery on %s: %s", (surgeryOn, level) => {
    expect(on({ stomaMl: 1200 }, { surgeryOn }).level).toBe(level);
  });

  it("that stays high for three days does not wait", () => {
    const levels = (ml: number[]) =>
      daysFrom(ml.map((stomaMl) => ({ stomaMl }))).days.map(({ level }) => level);
    expect(levels([1500, 1500, 1500])).toEqual(["nextContact", "nextContact", "sameDay"]);
    expect(levels([1500, 1499, 1500])).toEqual(["nextContact", "none", "nextContact"]);
  });

  it("a day without an entry ends the row", () => {
    const { days } = fluid({
      ...settled,
      days: ["2026-11-01", "2026-11-02", "2026-11-04"].map((date) => ({ ...whole, date, stomaMl: 1600 })),
    });
    expect(days.at(-1)!.level).toBe("nextContact");
  });

  it("in hospital raises nothing below the very high ones for two days, and says so", () => {
    const { level, notes } = on({ stomaMl: 1999 }, { setting: "hospital", surgeryOn: "2026-11-18" });
    expect([level, notes.map(({ code }) => code)]).toEqual(["none", ["usualInHospital"]]);
    expect(on({ stomaMl: 2000 }, { setting: "hospital" }).level).toBe("sameDay");
    const { days } = daysFrom([{ stomaMl: 1600 }, { stomaMl: 1600 }, { stomaMl: 1600 }], {
      setting: "hospital",
    });
    expect(days.map(({ level }) => level)).toEqual(["none", "none", "sameDay"]);
    expect(on({ stomaMl: 3001 }, { setting: "hospital" }).level).toBe("now");
  });

  it("of more than five half-full pouches counts where the volume is unknown", () => {
    expect(summary({ halfFullEmpties: 5 })).toEqual([null]);
    expect(summary({ halfFullEmpties: 6 })).toEqual(["sameDay", "manyHalfFullEmpties"]);
    expect(summary({ halfFullEmpties: 6, stomaMl: 900 })).toEqual(["none"]);
  });
});

describe("urine", () => {
  it.each([
    [800, "none"],
    [799, "nextContact", "urineLow"],
    [400, "nextContact", "urineLow"],
    [399, "sameDay", "urineVeryLow"],
    [100, "sameDay", "urineVeryLow"],
    [99, "now", "urineNone"],
  ])("%i mL in a whole day: %s", (urineMl, ...expected) => {
    expect(summary({ stomaMl: 700, urineMl })).toEqual(expected);
    expect(summary({ urineMl }, { stomaType: "urostomy" })).toEqual(expected);
  });

  it("of a part day shows nothing: the rest may have come", () => {
    expect(summary({ stomaMl: 700, urineMl: 50, hoursCovered: 12 })).toEqual([null]);
  });

  it("of a urostomy is what comes out of the stoma", () => {
    expect(summary({ stomaMl: 799 }, { stomaType: "urostomy" })).toEqual(["nextContact", "urineLow"]);
    expect(summary({ stomaMl: 3500 }, { stomaType: "urostomy" })).toEqual(["none"]);
  });

  // 70 kg x 0.5 mL/kg/h x 24 h
  it("expected of 70 kg is 840 mL", () => {
    expect(on({ stomaMl: 700, weightKg: 70 }).urineByWeightMl).toBe(840);
  });

  it("that is low beside a high output does not wait", () => {
    expect(summary({ stomaMl: 1500, urineMl: 799 })).toEqual([
      "sameDay",
      "outputHighAndDrying",
      "outputHigh",
      "urineLow",
    ]);
    expect(on({ stomaMl: 1499, urineMl: 799 }).level).toBe("nextContact");
  });
});

describe("weight", () => {
  const last = (weights: (number | undefined)[]) =>
    daysFrom(weights.map((weightKg) => ({ stomaMl: 700, weightKg }))).days.at(-1)!;
  const rules = (weights: (number | undefined)[]) => last(weights).reasons.map(({ rule }) => rule);

  it.each([
    [[90, 89], ["weightLossDay"]],
    [[90, 89.1], []],
    [[150, 149, 148.1], []],
    [[150, 149.2, undefined, undefined, 148], ["weightLossFewDays"]],
    [[150, undefined, undefined, undefined, undefined, 148], []],
  ])("%j kg: %j", (weights, expected) => {
    expect(rules(weights)).toEqual(expected);
  });

  // 5 % of 70, 80 and 60 kg
  it.each([
    [70, 66.5],
    [80, 76],
    [60, 57],
  ])("from %d to %d kg is 5 %, and does not wait", (from, to) => {
    const slowly = (final: number) => rules([from, ...new Array(8).fill(undefined), final]);
    expect(slowly(to)).toEqual(["weightLossMuch"]);
    expect(slowly(to + 0.1)).toEqual(["weightLoss"]);
    expect(slowly(from * 0.981)).toEqual([]);
  });

  it("lost beside a high output does not wait", () => {
    const { days } = daysFrom([{ weightKg: 80 }, { weightKg: 79, stomaMl: 1500 }]);
    expect(days[1]!.level).toBe("sameDay");
  });
});

describe("missing is missing, not zero", () => {
  it("a part day may raise a level, and never reassures", () => {
    expect(on({ stomaMl: 900, hoursCovered: 22 }).level).toBeNull();
    expect(on({ stomaMl: 900, hoursCovered: 23 }).level).toBe("none");
    expect(on({ stomaMl: 2000, hoursCovered: 9 }).level).toBe("sameDay");
    expect(on({ stomaMl: 900, hoursCovered: 22 }).notes.map(({ code }) => code)).toEqual(["partDay"]);
  });

  it("without the output there is no level, whatever else is known", () => {
    const { level, missing, sodiumLossMmol, balanceMl } = on({ urineMl: 1200, drinksMl: 2000, weightKg: 70 });
    expect([level, missing, sodiumLossMmol, balanceMl]).toEqual([null, ["stomaMl"], null, null]);
  });

  it("days without an entry are said", () => {
    const { notes } = fluid({
      ...settled,
      days: ["2026-11-01", "2026-11-05"].map((date) => ({ ...whole, date, stomaMl: 700 })),
    });
    expect(notes.find(({ code }) => code === "daysMissing")!.params.gaps).toBe(3);
  });
});

describe("sodium and balance", () => {
  // 100 mmol in a litre of an ileostomy's output: BSG 2006, table 3
  it.each([
    [1500, 150],
    [2000, 200],
  ])("%i mL carry %i mmol of sodium", (stomaMl, mmol) => {
    expect(on({ stomaMl }).sodiumLossMmol).toBe(mmol);
  });

  it("of another stoma's output is not known", () => {
    for (const stomaType of ["colostomy", "urostomy", "fistula", "other"] as const)
      expect(on({ stomaMl: 1000 }, { stomaType }).sodiumLossMmol).toBeNull();
  });

  it("the balance needs the whole day, and all three", () => {
    const all = { stomaMl: 900, urineMl: 1000, drinksMl: 1800 };
    expect(on(all).balanceMl).toBe(-100);
    expect(on({ ...all, hoursCovered: 20 }).balanceMl).toBeNull();
    expect(on({ ...all, drinksMl: undefined }).balanceMl).toBeNull();
    expect(on({ urineMl: 1500, drinksMl: 1800 }, { stomaType: "urostomy" }).balanceMl).toBe(300);
  });

  it("less drunk than lost two days running is worth a look", () => {
    const short = { stomaMl: 900, urineMl: 1000, drinksMl: 1800 };
    const level = (days: Partial<FluidDay>[]) => daysFrom(days).days.at(-1)!.level;
    expect(level([short])).toBe("none");
    expect(level([short, short])).toBe("nextContact");
    expect(level([{ ...short, drinksMl: 1900 }, short])).toBe("none");
  });
});

describe("those for whom adult limits were not made", () => {
  const special: [string, Partial<FluidInput>][] = [
    ["a child", { birthDate: "2008-11-21" }],
    ["in pregnancy", { pregnant: true }],
    ["beside a heart or kidney plan", { heartOrKidneyPlan: true }],
  ];

  it.each(special)("%s: no level, never none, until own limits are set", (_who, more) => {
    const { level, needsOwnLimits, notes } = on({ stomaMl: 700 }, more);
    expect([level, needsOwnLimits]).toEqual([null, true]);
    expect(notes.map(({ code }) => code)).toEqual(["needsOwnLimits"]);
  });

  it.each(special)("%s: what passes even an adult's limit is not kept quiet", (_who, more) => {
    const { level, raisedTo, reasons, notes } = on({ stomaMl: 3001 }, more);
    expect([level, raisedTo, reasons.map(({ rule }) => rule)]).toEqual([null, "now", ["outputUrgent"]]);
    expect(notes.map(({ code }) => code)).toEqual(["overAdultLimit"]);
  });

  it.each(special)("%s: own limits hold, on both sides", (_who, more) => {
    const level = (stomaMl: number) => on({ stomaMl }, { ...more, ownLimits: { outputHighMl: 400 } }).level;
    expect([level(399), level(400)]).toEqual(["none", "nextContact"]);
  });

  it("eighteen is adult from the birthday on", () => {
    expect(on({ stomaMl: 700 }, { birthDate: "2008-11-20" }).needsOwnLimits).toBe(false);
    expect(on({ stomaMl: 700 }, { birthDate: "2008-11-21" }).needsOwnLimits).toBe(true);
  });

  it("a urostomy's own limit is of urine", () => {
    const own = (ownLimits: object) =>
      on({ urineMl: 600 }, { stomaType: "urostomy", pregnant: true, ownLimits }).needsOwnLimits;
    expect([own({ outputHighMl: 400 }), own({ urineLowMl: 500 })]).toEqual([true, false]);
  });
});

describe("a reason", () => {
  it("shows the value, the limit and the limit's source", () => {
    expect(on({ stomaMl: 1600 }).reasons[0]).toMatchObject({
      rule: "outputHigh",
      code: "outputHigh",
      value: 1600,
      limit: 1500,
      source: expect.stringContaining(protocolDefinition("outputHighMl").source),
    });
  });

  it("says when the clinic or the clinician set the limit", () => {
    const source = (more: Partial<FluidInput>) => on({ stomaMl: 1600 }, more).reasons[0]!.source;
    expect(source({ protocol: { outputHighMl: 1400 } })).toMatch(/clinic’s protocol/);
    expect(source({ ownLimits: { outputHighMl: 1000 } })).toMatch(/own limit/);
    expect(on({ stomaMl: 1600 }, { protocol: { outputHighMl: 1700 } }).level).toBe("none");
  });

  it("never tells anybody to drink", () => {
    for (const stomaMl of [1200, 1500, 2000, 3500])
      for (const { text } of on({ stomaMl, urineMl: 50 }).reasons) expect(text).not.toMatch(/drink|water/i);
    expect(defaultProtocol.outputHighMl).toBe(1500);
  });
});
