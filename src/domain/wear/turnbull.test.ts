import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { curveRows, survivalCurve } from "./curve.ts";
import { jumpFunctionalSe, survivalErrors } from "./jumpCovariance.ts";
import { runningSum, selfConsistentMass } from "./jumpMass.ts";
import { lifetimesOf } from "./lifetimes.ts";
import { restrictedMean } from "./restrictedMean.ts";
import { type Spans, spansOf } from "./spans.ts";
import { expectedFailures } from "./turnbull.ts";
import type { Wear } from "./wear.ts";

/** Leaks seen at once, leaks found at the next look, and planned changes, on a grid of quarter days. */
const quarters = (min: number, max: number) => fc.integer({ min, max }).map((q) => q / 4);
const someWears: fc.Arbitrary<Wear[]> = fc.array(
  fc.oneof(
    fc.record({ days: quarters(1, 24), ended: fc.constantFrom("leak", "planned" as const) }),
    fc
      .tuple(quarters(0, 16), quarters(1, 8))
      .map(([after, span]) => ({ days: after + span, foundAfterDays: after, ended: "leak" as const })),
  ),
  { minLength: 2, maxLength: 25 },
) as fc.Arbitrary<Wear[]>;

const found = (foundAfterDays: number, days: number): Wear => ({ days, foundAfterDays, ended: "leak" });
const planned = (days: number): Wear => ({ days, ended: "planned" });

describe("leaks known only to lie between two looks", () => {
  it("agree with R's survfit on thirteen wears of every kind", () => {
    // @source R 4.2.2, survival 3.5-3: survfit(Surv(l, r, type = "interval2") ~ 1); R stops at 5e-5
    const wears = [
      found(1, 2),
      found(2, 2.5),
      found(0, 1.5),
      found(3, 4),
      { days: 2.5, ended: "leak" as const },
      planned(4),
      planned(3),
      planned(5),
      found(2, 3),
      found(4, 4.5),
      { days: 3.5, ended: "leak" as const },
      planned(3.5),
      found(6, 7),
    ];
    const rows = curveRows(survivalCurve(lifetimesOf(wears))).filter(({ events }) => events > 0);
    expect(rows.map(({ days }) => days)).toEqual([1.25, 2.5, 3.5, 4.25, 6.5]);
    [0.8461538, 0.6153846, 0.4396404, 0.293027, 0].forEach((expected, i) => {
      expect(Math.abs(rows[i]!.survival - expected)).toBeLessThan(2e-4);
    });
  });

  it("are at the maximum: no place in time would gain from more leaks put there", () => {
    fc.assert(
      fc.property(someWears, (wears) => {
        const spans = spansOf(lifetimesOf(wears));
        const mass = selfConsistentMass(spans);
        pulls(spans, mass).forEach((pull, j) => {
          expect(pull).toBeLessThan(1 + 1e-8);
          if (mass[j]! > 1e-5) expect(pull).toBeGreaterThan(1 - 1e-6);
        });
      }),
      { numRuns: 200 },
    );
  });

  it("give the product-limit curve and Greenwood's error when every leak was seen at once", () => {
    fc.assert(
      fc.property(someWears, (wears) => {
        const lifetimes = lifetimesOf(wears.map(({ days, ended }) => ({ days, ended })));
        const curve = survivalCurve(lifetimes);
        const { table, jumps } = expectedFailures(lifetimes);
        expect([...table.days]).toEqual([...curve.days]);
        table.events.forEach((events, i) => {
          expect(events).toBeCloseTo(curve.events[i]!, 8);
        });
        survivalErrors(table.days, jumps).forEach((se, i) => {
          if (curve.survival[i]! > 0) expect(se).toBeCloseTo(curve.se[i]!, 7);
        });
        const factors = Array.from(jumps!.days, (day) => Math.min(day, 3));
        expect(jumpFunctionalSe(jumps!, factors)).toBeCloseTo(restrictedMean(curve, 3).se!, 7);
      }),
    );
  });

  it("approach the curve of leaks seen at once as the looks come closer together", () => {
    const days = [1, 1.5, 2, 2.2, 3, 3.5, 4];
    const exact = survivalCurve(lifetimesOf([...days.map((d) => found(d, d)), planned(5), planned(2.5)]));
    const close = survivalCurve(
      lifetimesOf([...days.map((d) => found(d - 1e-4, d)), planned(5), planned(2.5)]),
    );
    close.survival.forEach((survival, i) => {
      expect(survival).toBeCloseTo(exact.survival[i]!, 8);
      expect(close.se[i]).toBeCloseTo(exact.se[i]!, 6);
    });
  });

  it("are less certain than leaks seen at once", () => {
    const spans = [found(1, 3), found(2, 4), found(0.5, 2), found(2.5, 5), planned(4), planned(6)];
    const seen = spans.map(({ days, ended }) => ({ days, ended }));
    const errorAt = (wears: Wear[]) => restrictedMean(survivalCurve(lifetimesOf(wears)), 4).se!;
    expect(errorAt(spans)).toBeGreaterThan(errorAt(seen));
  });

  it("put a leak since the start between 0 and the first look", () => {
    const rows = curveRows(survivalCurve(lifetimesOf([found(0, 2), planned(4)])));
    expect(rows[0]).toMatchObject({ days: 1, survival: 0.5 });
  });
});

/** What each place would gain from a little more mass, over the number of wears: 1 at the maximum. */
function pulls(spans: Spans, mass: Float64Array): number[] {
  const before = runningSum(mass);
  const weights = spans.weight.reduce((sum, w) => sum + w, 0);
  return Array.from(mass, (_, j) => {
    let pull = 0;
    spans.weight.forEach((weight, i) => {
      if (spans.first[i]! <= j && j <= spans.last[i]!)
        pull += weight / (before[spans.last[i]! + 1]! - before[spans.first[i]!]!);
    });
    return pull / weights;
  });
}
