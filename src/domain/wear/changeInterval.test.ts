import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { protocolWith } from "../protocol/index.ts";
import { type ChangeInterval, changeInterval } from "./changeInterval.ts";
import { type Ending, sealFailures, type Wear } from "./wear.ts";

const times = (count: number, days: number, ended: Ending): Wear[] =>
  Array.from({ length: count }, () => ({ days, ended }));

const codes = (list: ChangeInterval["notes"]) => list.map(({ code }) => code);

const someWears = fc.array(
  fc.record({
    days: fc.integer({ min: 0, max: 100 }).map((tenths) => tenths / 10),
    ended: fc.constantFrom("leak", "underBarrier", "sealTrouble", "planned", "other", "stillOn" as Ending),
  }),
  { maxLength: 15 },
);

describe("what counts against a seal", () => {
  it("counts leaks, output under the barrier and itching alike", () => {
    const held = times(6, 3.5, "planned");
    const [leak, ...others] = sealFailures.map((ended) =>
      changeInterval({ wears: [...held, { days: 2.5, ended }] }),
    );
    for (const other of others) expect(other.unbounded).toEqual(leak!.unbounded);
    expect(leak!.unbounded.estimate).toBeLessThan(changeInterval({ wears: held }).unbounded.estimate!);
  });

  it("takes planned changes, other reasons and a barrier still on as seals that had held until then", () => {
    const [planned, ...others] = (["planned", "other", "stillOn"] as const).map((ended) =>
      changeInterval({ wears: [...times(2, 3.5, "planned"), { days: 3, ended }] }),
    );
    for (const other of others) expect(other.unbounded).toEqual(planned!.unbounded);
  });

  it("lengthens the interval with every wear that held, and shortens it with every early failure", () => {
    const estimate = (wears: Wear[]) => changeInterval({ wears }).unbounded.estimate!;
    expect(estimate(times(1, 3.5, "planned"))).toBeGreaterThan(estimate([]));
    expect(estimate(times(5, 3.5, "planned"))).toBeGreaterThan(estimate(times(1, 3.5, "planned")));
    expect(estimate(times(1, 1.5, "leak"))).toBeLessThan(estimate([]));
    expect(estimate(times(5, 1.5, "leak"))).toBeLessThan(estimate(times(1, 1.5, "leak")));
  });
});

describe("how far an interval may go", () => {
  it("never passes the longest wear seen, the maximum, or its own limits", () => {
    fc.assert(
      fc.property(someWears, (wears) => {
        const { estimate, lower, upper } = changeInterval({ wears });
        if (estimate === null) {
          expect([lower, upper]).toEqual([null, null]);
          return;
        }
        const longest = Math.max(...wears.map(({ days }) => days));
        const noneEnded = wears.every(({ ended }) => ended === "stillOn");
        expect(upper).toBeLessThanOrEqual(Math.min(7, noneEnded ? Math.max(3.5, longest) : longest));
        expect(lower).toBeLessThanOrEqual(estimate);
        expect(estimate).toBeLessThanOrEqual(upper!);
        expect(estimate).toBeGreaterThanOrEqual(2);
      }),
    );
  });

  it("says what holds it back", () => {
    const tried = changeInterval({ wears: times(20, 3.5, "planned") });
    expect(tried).toMatchObject({ estimate: 3.5, upper: 3.5, boundBy: "longestWear" });
    expect(codes(tried.basis)).toContain("bounded");
    expect(tried.unbounded.estimate).toBeGreaterThan(3.5);
    expect(changeInterval({ wears: times(20, 9, "planned") })).toMatchObject({
      estimate: 7,
      boundBy: "maximum",
    });
  });

  it("lets the plan stand in for the longest wear while the first barrier is still on", () => {
    const first = changeInterval({ wears: times(1, 1, "stillOn") });
    expect(first.estimate).toBeGreaterThan(2);
    expect(first.estimate).toBeLessThanOrEqual(3.5);
  });

  it("keeps the risk at the estimate within the target", () => {
    fc.assert(
      fc.property(someWears, fc.constantFrom(0.05, 0.1, 0.2), (wears, riskTarget) => {
        const { riskAtEstimate, estimate } = changeInterval({ wears, riskTarget });
        if (estimate === null) expect(riskAtEstimate).toBeNull();
        else expect(riskAtEstimate).toBeLessThanOrEqual(riskTarget + 1e-9);
      }),
    );
  });

  it("is shorter for a smaller accepted risk", () => {
    const at = (riskTarget: number) => changeInterval({ wears: [], riskTarget }).unbounded.estimate!;
    expect(at(0.05)).toBeLessThan(at(0.1));
    expect(at(0.1)).toBeLessThan(at(0.2));
  });
});

describe("below the floor", () => {
  it("asks for a review of the fit instead of more changes", () => {
    const leaking = changeInterval({ wears: times(6, 1.2, "leak") });
    expect(leaking).toMatchObject({ estimate: null, lower: null, upper: null, riskAtEstimate: null });
    expect(codes(leaking.notes)).toEqual(["reviewFit"]);
    expect(leaking.notes[0]!.text).not.toMatch(/change (it )?more often/i);
  });

  it("says it is too early where nothing failed but nothing was worn for long", () => {
    const short = changeInterval({ wears: times(1, 1, "other") });
    expect(short.estimate).toBeNull();
    expect(codes(short.notes)).toEqual(["tooEarlyToSay"]);
  });

  it("does not blame the fit where the clinic's floor is above what the prior alone allows", () => {
    const { estimate, notes } = changeInterval({ wears: [] }, protocolWith({ floorIntervalDays: 3 }));
    expect(estimate).toBeNull();
    expect(codes(notes)).toEqual(["tooEarlyToSay"]);
  });

  it("gives the reason that is true: risk too high, or no seal seen to hold that long", () => {
    expect(changeInterval({ wears: times(6, 1.2, "leak") }).notes[0]!.text).toContain("10 %");
    const once = changeInterval({ wears: [...times(20, 1.95, "planned"), ...times(1, 1.9, "leak")] });
    expect(once.unbounded.estimate).toBeGreaterThan(2);
    expect(once.notes[0]!.text).toContain("none has been seen to hold to day 2");
  });

  it("follows the floor and the maximum of the clinic's own protocol", () => {
    const wears = times(20, 3.5, "planned");
    expect(changeInterval({ wears }, protocolWith({ maxIntervalDays: 3 })).estimate).toBe(3);
    expect(changeInterval({ wears }, protocolWith({ floorIntervalDays: 4 })).estimate).toBeNull();
  });
});

describe("a closed pouch changed several times a day", () => {
  it("has its prior and its floor from its own plan", () => {
    const closed = changeInterval({ wears: times(10, 0.5, "planned"), plannedDays: 0.5 });
    expect(closed).toMatchObject({ estimate: 0.5, boundBy: "longestWear" });
    const drainable = changeInterval({ wears: [] });
    const newClosed = changeInterval({ wears: [], plannedDays: 0.5 });
    expect(newClosed.estimate! / drainable.estimate!).toBeCloseTo(0.5 / 3.5, 6);
  });

  it("still gets a review of the fit when it fails in a few hours", () => {
    const failing = changeInterval({ wears: times(8, 0.1, "leak"), plannedDays: 0.5 });
    expect(failing.estimate).toBeNull();
    expect(codes(failing.notes)).toEqual(["reviewFit"]);
  });

  it("is told from a drainable pouch on a short or long plan, whose prior stays the usual one", () => {
    for (const plannedDays of [2, 7])
      expect(changeInterval({ wears: [], plannedDays }).unbounded).toEqual(
        changeInterval({ wears: [] }).unbounded,
      );
    expect(changeInterval({ wears: [], plannedDays: 2 })).toMatchObject({
      estimate: 2,
      boundBy: "plannedInterval",
    });
  });
});

describe("what an interval rests on", () => {
  it("is the prior alone before any wear, and says so", () => {
    const { personShare, basis, estimate } = changeInterval({ wears: [] });
    expect(estimate).toBeGreaterThan(2);
    expect(personShare).toBe(0);
    expect(codes(basis)).toEqual(["noWears", "priorShare"]);
    expect(basis[1]!.text).toContain("All that is known");
  });

  it("is more and more the person as wears come in", () => {
    const life: Wear[] = [...times(4, 3.5, "planned"), ...times(1, 3, "leak")];
    const repeated = (n: number) => Array.from({ length: n }, () => life).flat();
    const shares = [1, 5, 40].map((n) => changeInterval({ wears: repeated(n) }).personShare);
    expect(shares[0]).toBeLessThan(shares[1]!);
    expect(shares[1]).toBeLessThan(shares[2]!);
    expect(shares[2]).toBeGreaterThan(0.9);
  });

  it("counts wears and each way the seal failed", () => {
    const { basis } = changeInterval({
      wears: [...times(2, 3, "leak"), ...times(1, 3, "sealTrouble"), ...times(4, 3.5, "planned")],
    });
    expect(basis[0]!.params).toEqual({ wears: 7, failures: 3, leak: 2, underBarrier: 0, sealTrouble: 1 });
  });

  it("always warns, beside a day to plan by, of the signs that mean change now", () => {
    expect(codes(changeInterval({ wears: times(3, 3.5, "planned") }).notes)).toEqual(["changeNowSigns"]);
  });
});

describe("without a prior", () => {
  it("is the maximum-likelihood day where there is one", () => {
    const wears = [
      ...times(3, 3.5, "planned"),
      ...times(1, 2.6, "leak"),
      ...times(1, 3.2, "leak"),
      ...times(4, 4, "planned"),
    ];
    const { estimate, lower, upper, personShare, basis } = changeInterval({ wears, prior: "none" });
    expect(estimate).toBeGreaterThan(lower!);
    expect(upper).toBeLessThanOrEqual(4);
    expect(personShare).toBe(1);
    expect(codes(basis)).toContain("noPrior");
  });

  it("is null with the reason where there is none", () => {
    const { estimate, notes } = changeInterval({ wears: times(5, 3.5, "planned"), prior: "none" });
    expect(estimate).toBeNull();
    expect(codes(notes)).toEqual(["tooFewFailures"]);
  });
});
