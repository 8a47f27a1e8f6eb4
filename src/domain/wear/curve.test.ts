import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { curveRows, type SurvivalCurve, survivalCurve } from "./curve.ts";
import { lifetimesOf } from "./lifetimes.ts";
import { curveQuantile } from "./quantile.ts";
import { restrictedMean } from "./restrictedMean.ts";
import type { Wear } from "./wear.ts";

/** Wears to the tenth of a day, so that ties are common. */
const someWears = fc.array(
  fc.record({
    days: fc.integer({ min: 1, max: 80 }).map((tenths) => tenths / 10),
    ended: fc.constantFrom("leak", "planned", "stillOn" as const),
  }),
  { minLength: 1, maxLength: 30 },
) as fc.Arbitrary<Wear[]>;

const curveOf = (wears: readonly Wear[]) => survivalCurve(lifetimesOf(wears));

describe("the leak-free curve", () => {
  it("counts a planned change on the day of a leak as at risk of that leak", () => {
    const rows = curveRows(
      curveOf([
        { days: 3, ended: "planned" },
        { days: 3, ended: "leak" },
        { days: 5, ended: "leak" },
      ]),
    );
    expect(rows[0]).toMatchObject({ days: 3, atRisk: 3, events: 1, censored: 1 });
    expect(rows[0]!.survival).toBeCloseTo(2 / 3, 12);
  });

  it("takes days that differ only by the rounding of clock times as one day", () => {
    const summed = 1.1 + 2.2;
    expect(summed).not.toBe(3.3);
    const rows = curveRows(
      curveOf([
        { days: summed, ended: "leak" },
        { days: 3.3, ended: "leak" },
        { days: 4, ended: "planned" },
      ]),
    );
    expect(rows.map(({ events }) => events)).toEqual([2, 0]);
  });

  it("stays at 1 with no median when nothing leaked", () => {
    fc.assert(
      fc.property(someWears, (wears) => {
        const curve = curveOf(wears.map(({ days }) => ({ days, ended: "planned" })));
        expect(curve.survival.every((s) => s === 1)).toBe(true);
        expect(curveQuantile(curve, 0.5)).toEqual({ estimate: null, lower: null, upper: null });
      }),
    );
  });

  it("does not change when a wear that ended at once without a leak is added", () => {
    fc.assert(
      fc.property(someWears, (wears) => {
        const before = curveOf(wears);
        const after = curveOf([...wears, { days: 0, ended: "planned" }]);
        expect(after.survival.slice(1)).toEqual(before.survival);
        expect(after.se.slice(1)).toEqual(before.se);
      }),
    );
  });

  it("does not depend on the order of the wears", () => {
    fc.assert(
      fc.property(
        someWears.chain((wears) =>
          fc.tuple(fc.constant(wears), fc.shuffledSubarray(wears, { minLength: wears.length })),
        ),
        ([wears, shuffled]) => {
          expect(curveOf(shuffled)).toEqual(curveOf(wears));
        },
      ),
    );
  });

  it("stretches with time: hours for days give the same curve at 24 times the day", () => {
    fc.assert(
      fc.property(someWears, (wears) => {
        const days = curveOf(wears);
        const hours = curveOf(wears.map((wear) => ({ ...wear, days: wear.days * 24 })));
        expect(hours.survival).toEqual(days.survival);
        for (const p of [0.1, 0.25, 0.5]) {
          const inDays = curveQuantile(days, p);
          const inHours = curveQuantile(hours, p);
          for (const key of ["estimate", "lower", "upper"] as const) {
            if (inDays[key] === null) expect(inHours[key]).toBeNull();
            else expect(inHours[key]).toBeCloseTo(inDays[key] * 24, 8);
          }
        }
        expect(restrictedMean(hours, 72).days).toBeCloseTo(restrictedMean(days, 3).days * 24, 8);
      }),
    );
  });

  it("ends where it did when leaks on one day are told apart by minutes", () => {
    fc.assert(
      fc.property(someWears, (wears) => {
        const apart = wears.map((wear, i) =>
          wear.ended === "leak" ? { ...wear, days: wear.days - (wears.length - i) * 1e-4 } : wear,
        );
        // Product-limit factors telescope: (1 - 2/n) = (1 - 1/n)(1 - 1/(n - 1)).
        expect(lastOf(curveOf(apart))).toBeCloseTo(lastOf(curveOf(wears)), 10);
      }),
    );
  });

  it("keeps every limit on its side of the curve and between 0 and 1", () => {
    fc.assert(
      fc.property(someWears, fc.constantFrom("log-log", "log", "plain" as const), (wears, interval) => {
        for (const { survival, lower, upper } of curveRows(survivalCurve(lifetimesOf(wears), interval))) {
          if (lower === null || upper === null) continue;
          expect(lower).toBeLessThanOrEqual(survival);
          expect(upper).toBeGreaterThanOrEqual(survival);
          expect(lower).toBeGreaterThanOrEqual(0);
          expect(upper).toBeLessThanOrEqual(1);
        }
      }),
    );
  });
});

describe("which endings count", () => {
  const wears: Wear[] = [
    { days: 2, ended: "leak" },
    { days: 3, ended: "underBarrier" },
    { days: 4, ended: "sealTrouble" },
    { days: 5, ended: "other" },
  ];

  it("counts only leaks past the edge unless told otherwise", () => {
    expect(lifetimesOf(wears).failures).toBe(1);
    expect(lifetimesOf(wears, ["leak", "underBarrier", "sealTrouble"]).failures).toBe(3);
  });

  it("takes what is not an event as a seal that had held until then", () => {
    expect([...curveOf(wears).censored]).toEqual([0, 1, 1, 1]);
  });
});

function lastOf(curve: SurvivalCurve): number {
  return curve.survival.at(-1)!;
}
