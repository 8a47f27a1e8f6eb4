import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError, parseInput } from "../fault.ts";
import {
  completionDays,
  countMean,
  countQuantile,
  renewalCounts,
  type SuppliesInput,
  supplies,
} from "./index.ts";
import { suppliesSchema } from "./input.ts";
import { momentsOf } from "./moments.ts";
import { suppliesTopic } from "./topic.ts";

const barrier = { id: "barrier", perChange: 1, boxSize: 10, onHand: 10 };
const steady: SuppliesInput = {
  items: [barrier],
  // Seals that all but never fail: the plan alone decides.
  wear: { shape: 8, scale: 100 },
  plannedChangeDays: 3,
  horizonDays: 30,
  leadTimeDays: 7,
  serviceLevel: 0.95,
};
const first = (input: SuppliesInput) => supplies(input).items[0]!;

describe("a person whose every change is the planned one", () => {
  it("changed every 3 days needs 10 in 30 days, and none more for safety", () => {
    expect(first(steady)).toMatchObject({ need: 10, orderBoxes: 0, changes: { p50: 10, p95: 10 } });
  });

  it("with 10 left the 11th change, on day 33, finds nothing: order a week before", () => {
    const { stockOutDay, reorderOnDay } = first(steady);
    expect(stockOutDay.p10).toBeCloseTo(33, 1);
    expect(stockOutDay.p90).toBeCloseTo(33, 1);
    expect(reorderOnDay).toBe(26);
  });

  it("a wear that is already 2 days old is changed tomorrow, and everything comes 2 days sooner", () => {
    expect(first({ ...steady, currentWearDays: 2 }).stockOutDay.p50).toBeCloseTo(31, 1);
  });

  it("two pieces at each change run out after half as many changes", () => {
    expect(first({ ...steady, items: [{ ...barrier, perChange: 2 }] }).stockOutDay.p50).toBeCloseTo(18, 1);
  });

  it("what expires in 9 days is counted on for the three changes until then", () => {
    const { stockOutDay, notes } = first({ ...steady, items: [{ ...barrier, expires: 9 }] });
    expect(stockOutDay.p50).toBeCloseTo(12, 1);
    expect(notes.map(({ code }) => code)).toContain("mayExpireUnused");
  });

  it("the lot that expires first is used first", () => {
    const lots = [
      { pieces: 7, expiresInDays: null },
      { pieces: 3, expiresInDays: 10 },
    ];
    const { stockOutDay, notes } = first({ ...steady, items: [{ ...barrier, lots }] });
    expect(stockOutDay.p50).toBeCloseTo(33, 1);
    expect(notes).toEqual([]);
  });

  it("needs of 10 where 6 a month are covered are 4 over", () => {
    const { overAllowance, notes } = first({ ...steady, items: [{ ...barrier, allowancePerMonth: 6 }] });
    expect(overAllowance).toBeCloseTo(4, 9);
    expect(notes.map(({ code }) => code)).toContain("overAllowance");
  });

  it("with one left and a week to wait, says that it may run out first", () => {
    const { reorderOnDay, notes } = first({ ...steady, items: [{ ...barrier, onHand: 1 }] });
    expect(reorderOnDay).toBe(0);
    expect(notes.map(({ code }) => code)).toContain("mayRunOutBeforeDelivery");
  });
});

describe("a person whose seals fail", () => {
  const leaking: SuppliesInput = { ...steady, wear: { shape: 2, scale: 3.5 }, plannedChangeDays: 3.5 };

  it("needs more than the plan says, and more still to be sure", () => {
    const { changes, need } = first(leaking);
    expect(changes.mean).toBeGreaterThan(30 / 3.5);
    expect(need).toBe(changes.p95);
  });

  it("agrees with a simulation of the same law (seeded, 40,000 lives; two standard errors)", () => {
    let seed = 7;
    const random = () => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return (seed + 0.5) / 2 ** 32;
    };
    const lives = 40_000;
    let sum = 0;
    let square = 0;
    for (let i = 0; i < lives; i++) {
      let [day, count] = [0, 0];
      for (;;) {
        day += Math.min(3.5, 3.5 * (-Math.log(random())) ** 0.5);
        if (day > 30) break;
        count += 1;
      }
      sum += count;
      square += count ** 2;
    }
    const mean = sum / lives;
    const se = Math.sqrt((square / lives - mean ** 2) / lives);
    expect(Math.abs(first(leaking).changes.mean - mean)).toBeLessThan(2.6 * se);
  });

  it("spreads wider when the wear itself is only known from few wears", () => {
    const known = first({ ...steady, wear: { shape: 2, scale: 6 }, plannedChangeDays: 3.5 });
    const wears = [3.5, 2.8, 3.5, 1.9].map((days) => ({
      days,
      ended: days === 3.5 ? ("planned" as const) : ("leak" as const),
    }));
    const learnt = first({ ...steady, wear: { wears }, plannedChangeDays: 3.5 });
    const spread = ({ stockOutDay }: typeof known) => stockOutDay.p90! - stockOutDay.p10!;
    expect(spread(learnt)).toBeGreaterThan(spread(known));
  });
});

describe("the renewal process", () => {
  const law = fc.record({
    shape: fc.double({ min: 0.7, max: 4, noNaN: true }),
    scaleDays: fc.double({ min: 1.5, max: 20, noNaN: true }),
    plannedDays: fc.option(fc.double({ min: 1, max: 7, noNaN: true })),
  });

  it("its chances add up to 1 and none is negative, for any law and any age of the wear that is on", () => {
    fc.assert(
      fc.property(law, fc.double({ min: 0, max: 8, noNaN: true }), (one, currentWearDays) => {
        const pmf = renewalCounts(one, 30, { currentWearDays, cells: 16 });
        expect(pmf.reduce((sum, p) => sum + p, 0)).toBeCloseTo(1, 9);
        expect(Math.min(...pmf)).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 60 },
    );
  });

  it("shape 1 forgets its age: an old wear is as good as a new one", () => {
    const memoryless = { shape: 1, scaleDays: 3, plannedDays: null };
    const old = renewalCounts(memoryless, 20, { currentWearDays: 5, cells: 64 });
    expect(countMean(old)).toBeCloseTo(20 / 3, 5);
  });

  it("the day by which n wears are done is where the chance of n reaches it", () => {
    const one = { shape: 2, scaleDays: 4, plannedDays: 5 };
    const days = { currentWearDays: 0, horizonDays: 100 };
    const [day] = completionDays([{ law: one, weight: 1 }], 6, [0.5], days);
    const reached = renewalCounts(one, day!, { cells: 64 })
      .slice(6)
      .reduce((sum, p) => sum + p, 0);
    expect(reached).toBeCloseTo(0.5, 2);
  });

  it("many short wears are counted by the law they tend to, which agrees with the exact one where both can be had", () => {
    const closed = { shape: 2, scaleDays: 0.5, plannedDays: 0.5 };
    const exact = renewalCounts(closed, 74, { cells: 24 });
    const many = renewalCounts(closed, 76);
    const perDay = 1 / momentsOf(closed).meanDays;
    expect(countMean(many) - countMean(exact)).toBeCloseTo(2 * perDay, 1);
    expect(countQuantile(many, 0.95) - countMean(many)).toBeCloseTo(
      countQuantile(exact, 0.95) - countMean(exact),
      -1,
    );
  });

  it("one wear's mean and spread are those of the Weibull law (shape 1: both are the scale)", () => {
    const { meanDays, varianceDays2 } = momentsOf({ shape: 1, scaleDays: 3, plannedDays: null });
    expect(meanDays).toBeCloseTo(3, 6);
    expect(varianceDays2).toBeCloseTo(9, 5);
  });

  it("what is not reached within the days looked to is null", () => {
    const one = { shape: 2, scaleDays: 40, plannedDays: null };
    expect(
      completionDays([{ law: one, weight: 1 }], 9, [0.5], { currentWearDays: 0, horizonDays: 30 }),
    ).toEqual([null]);
  });
});

describe("input", () => {
  it("the example works as it stands", () => {
    expect(suppliesTopic.run(parseInput(suppliesSchema, suppliesTopic.example)).items).toHaveLength(3);
  });

  it("lots that do not add up to what is on hand are refused by name", () => {
    const items = [{ ...barrier, lots: [{ pieces: 9, expiresInDays: null }] }];
    expect(() => parseInput(suppliesSchema, { ...steady, items })).toThrow(InputError);
    expect(() => parseInput(suppliesSchema, { ...steady, items })).toThrow(/items\.0\.lots/);
  });
});
