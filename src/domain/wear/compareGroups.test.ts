import chiSquareCdf from "@stdlib/stats-base-dists-chisquare-cdf";
import { describe, expect, it } from "vitest";
import { chiSquareTail } from "./chiSquareTail.ts";
import { compareGroups } from "./compareGroups.ts";
import type { Wear } from "./wear.ts";

const group = (name: string, leaks: number[], planned: number[]): Wear[] => [
  ...leaks.map((days) => ({ days, ended: "leak" as const, group: name })),
  ...planned.map((days) => ({ days, ended: "planned" as const, group: name })),
];

const flat = group("flat", [1.5, 2, 2.2, 2.8, 3, 3.1], [3.5, 3.5]);
const convex = group("convex", [2.9, 3.3], [3.5, 3.5, 3.6, 3.4, 3.5, 4]);

describe("two pouching systems side by side", () => {
  it("shows the one that leaks later as longer by days, by ratio and by the test", () => {
    const { groups, logRank, restrictedMeanDifference, weibullAft } = compareGroups([...flat, ...convex], {
      referenceGroup: "flat",
    });
    expect(groups).toEqual(["flat", "convex"]);
    expect(logRank!.p).toBeLessThan(0.05);
    expect(logRank!.observed[0]).toBeGreaterThan(logRank!.expected[0]!);
    expect(restrictedMeanDifference!.days).toBeGreaterThan(0);
    expect(restrictedMeanDifference!.lower).toBeGreaterThan(0);
    expect(weibullAft!.effects[0]!.timeRatio).toBeGreaterThan(1);
    expect(weibullAft!.beta).toBe(weibullAft!.effects[0]!.beta);
  });

  it("turns every sign when the reference is the other one, and nothing else", () => {
    const one = compareGroups([...flat, ...convex], { referenceGroup: "flat" });
    const other = compareGroups([...flat, ...convex], { referenceGroup: "convex" });
    expect(other.restrictedMeanDifference!.days).toBeCloseTo(-one.restrictedMeanDifference!.days, 12);
    expect(other.weibullAft!.beta).toBeCloseTo(-one.weibullAft!.beta!, 8);
    expect(other.logRank!.chi2).toBeCloseTo(one.logRank!.chi2, 10);
  });

  it("compares mean leak-free days only as far as both were seen", () => {
    expect(compareGroups([...flat, ...convex]).restrictedMeanDifference!.tauDays).toBe(3.5);
  });

  it("finds no difference between a system and itself", () => {
    const twin = flat.map((wear) => ({ ...wear, group: "twin" }));
    const { logRank, restrictedMeanDifference, weibullAft } = compareGroups([...flat, ...twin]);
    expect(logRank!.chi2).toBeCloseTo(0, 12);
    expect(logRank!.p).toBeCloseTo(1, 5);
    expect(restrictedMeanDifference!.days).toBe(0);
    expect(weibullAft!.beta).toBeCloseTo(0, 8);
  });

  it("depends only on the order of the days, not their size: the log-rank test of squared days is the same", () => {
    const wears = [...flat, ...convex];
    const squared = wears.map((wear) => ({ ...wear, days: wear.days ** 2 }));
    expect(compareGroups(squared).logRank!.chi2).toBeCloseTo(compareGroups(wears).logRank!.chi2, 10);
  });

  it("takes a leak found at a look as of that day for the test, and says so", () => {
    const spans = flat.map((wear) =>
      wear.ended === "leak" ? { ...wear, foundAfterDays: wear.days - 0.3 } : wear,
    );
    const asFound = compareGroups([...spans, ...convex]);
    expect(asFound.logRank).toEqual(compareGroups([...flat, ...convex]).logRank);
    expect(asFound.notes.map(({ code }) => code)).toContain("comparedAsFound");
    expect(asFound.weibullAft!.beta).not.toBe(compareGroups([...flat, ...convex]).weibullAft!.beta);
  });

  it("says why there is no test and no fit when nothing leaked", () => {
    const { logRank, weibullAft, notes } = compareGroups([
      ...group("a", [], [3, 4]),
      ...group("b", [], [3, 5]),
    ]);
    expect(logRank).toBeNull();
    expect(weibullAft).toBeNull();
    expect(notes.map(({ code }) => code)).toEqual(["noLogRank", "noWeibullAft"]);
  });

  it("has nothing to say about one system alone", () => {
    expect(compareGroups(flat)).toMatchObject({
      logRank: null,
      restrictedMeanDifference: null,
      weibullAft: null,
    });
    expect(compareGroups([]).notes.map(({ code }) => code)).toEqual(["noGroups"]);
  });

  it("leaves out wears without a group, and says how many", () => {
    const { notes, logRank } = compareGroups([...flat, ...convex, { days: 1, ended: "leak" }]);
    expect(notes).toContainEqual(expect.objectContaining({ code: "ungroupedLeftOut", params: { wears: 1 } }));
    expect(logRank).toEqual(compareGroups([...flat, ...convex]).logRank);
  });
});

describe("three pouching systems", () => {
  it("agree with R's survdiff", () => {
    // @source R 4.2.2, survival 3.5-3: survdiff(Surv(t, e) ~ g)
    const { logRank, restrictedMeanDifference, weibullAft } = compareGroups([
      ...group("a", [2.1, 1.2, 3.4], [3.5, 3.5, 3.5]),
      ...group("b", [2.8, 0.9, 2.2, 1.8], [3.5, 3.5]),
      ...group("c", [2.6, 1.1, 2.9], [3.1, 3.5, 3.5]),
    ]);
    expect(logRank!.chi2).toBeCloseTo(0.670094711755317, 10);
    expect(logRank!.df).toBe(2);
    expect(logRank!.p).toBeCloseTo(0.715304211691746, 10);
    expect(logRank!.expected[0]).toBeCloseTo(3.65641270494212, 10);
    expect(restrictedMeanDifference).toBeNull();
    expect(weibullAft!.beta).toBeNull();
    expect(weibullAft!.effects.map((effect) => effect.group)).toEqual(["b", "c"]);
  });
});

describe("the tail of the chi-square law", () => {
  it("agrees with an independent library away from the far tail", () => {
    for (const df of [1, 2, 3, 4, 7, 10])
      for (const x of [0.1, 1, 3.84, 12])
        expect(chiSquareTail(x, df)).toBeCloseTo(1 - chiSquareCdf(x, df), 11);
  });

  it("keeps its digits where one minus the law has none left", () => {
    // @source R 4.2.2 pchisq(x, df, lower.tail = FALSE)
    expect(chiSquareTail(100, 1) / 1.52397060483211e-23).toBeCloseTo(1, 10);
    expect(chiSquareTail(250, 7) / 2.7707117082473e-50).toBeCloseTo(1, 10);
  });
});
