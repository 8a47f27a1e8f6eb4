import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError, parseInput } from "../fault.ts";
import type { WearInput } from "./input.ts";
import { wearTopic } from "./topic.ts";
import { type Ending, endings, sealFailures, type Wear } from "./wear.ts";

const run = (input: unknown) => wearTopic.run(parseInput(wearTopic.schema, input));
const faults = (input: unknown): string[] => {
  try {
    run(input);
  } catch (error) {
    if (error instanceof InputError) return error.faults.map(({ path }) => path);
    throw error;
  }
  return [];
};

/** Anything a log could hold, wears of no length and leaks found late among it. */
const anyWear: fc.Arbitrary<Wear> = fc
  .record({
    days: fc.oneof(fc.constantFrom(0, 1, 3.5), fc.double({ min: 0, max: 30, noNaN: true })),
    ended: fc.constantFrom(...endings),
    since: fc.option(fc.double({ min: 0, max: 1, noNaN: true }), { nil: undefined }),
    group: fc.option(fc.constantFrom("flat", "convex"), { nil: undefined }),
  })
  .map(({ days, ended, since, group }) => ({
    days,
    ended: ended as Ending,
    ...(since !== undefined && (sealFailures as readonly string[]).includes(ended)
      ? { foundAfterDays: since * days }
      : {}),
    ...(group === undefined ? {} : { group }),
  }));

const anyInput: fc.Arbitrary<WearInput> = fc.record(
  {
    wears: fc.array(anyWear, { maxLength: 20 }),
    event: fc.constantFrom(["leak" as const], ["leak" as const, "underBarrier" as const], [...sealFailures]),
    interval: fc.constantFrom("log-log", "log", "plain" as const),
    tauDays: fc.constantFrom(1, 5, 100),
    prior: fc.constantFrom("weak", "none" as const),
    plannedDays: fc.constantFrom(0.3, 2, 3.5, 7),
  },
  { requiredKeys: ["wears"] },
);

describe("the wear topic", () => {
  it("runs its own example", () => {
    const output = run(wearTopic.example);
    expect(output.n).toBe(8);
    expect(output.leaks).toBe(2);
    expect(output.changeByDays.estimate).not.toBeNull();
  });

  it("gives every figure of the contract", () => {
    expect(Object.keys(run({ wears: [] }))).toEqual(
      expect.arrayContaining([
        "level",
        "n",
        "leaks",
        "curve",
        "cumulativeHazard",
        "medianDays",
        "restrictedMean",
        "weibull",
        "changeByDays",
        "notes",
      ]),
    );
  });

  it("never gives a number that JSON cannot hold, whatever the log holds", () => {
    fc.assert(
      fc.property(anyInput, (input) => {
        const output = run(input);
        expect(unholdable(output)).toEqual([]);
        expect(JSON.parse(JSON.stringify(output))).toEqual(output);
      }),
      { numRuns: 150 },
    );
  });

  it("says in a note why a figure is missing", () => {
    const { weibull, medianDays, notes } = run({ wears: [{ days: 3.5, ended: "planned" }] });
    expect(weibull).toBeNull();
    expect(medianDays.estimate).toBeNull();
    expect(notes.map(({ code }) => code)).toEqual(["noWeibull", "medianNotReached", "changeNowSigns"]);
    expect(run({ wears: [] }).notes.map(({ code }) => code)).toContain("noWears");
  });

  it("compares groups only where there are two", () => {
    const one = run({ wears: [{ days: 3, ended: "leak", group: "flat" }] });
    expect(one).not.toHaveProperty("groups");
    const two = run({
      wears: [
        { days: 3, ended: "leak", group: "flat" },
        { days: 2, ended: "leak", group: "flat" },
        { days: 3.5, ended: "planned", group: "convex" },
        { days: 3.2, ended: "leak", group: "convex" },
      ],
      referenceGroup: "flat",
    });
    expect(two.groups!.map(({ group, n }) => [group, n])).toEqual([
      ["flat", 2],
      ["convex", 2],
    ]);
    expect(two.logRank!.df).toBe(1);
    expect(two.weibullAft!.reference).toBe("flat");
    expect(two.restrictedMeanDifference!.tauDays).toBe(3);
  });

  it("states the level of its intervals", () => {
    const { level, changeByDays } = run({ wears: [] });
    expect([level, changeByDays.level]).toEqual([0.95, 0.8]);
  });

  it("refuses what it does not understand, naming the field", () => {
    const wear = { days: 3, ended: "leak" };
    expect(faults({})).toEqual(["wears"]);
    expect(faults({ wears: [{ ...wear, days: -1 }] })).toEqual(["wears.0.days"]);
    expect(faults({ wears: [{ ...wear, days: "3" }] })).toEqual(["wears.0.days"]);
    expect(faults({ wears: [{ ...wear, ended: "burst" }] })).toEqual(["wears.0.ended"]);
    expect(faults({ wears: [{ ...wear, foundAfterDays: 4 }] })).toEqual(["wears.0.foundAfterDays"]);
    expect(faults({ wears: [{ days: 3, ended: "planned", foundAfterDays: 2 }] })).toEqual([
      "wears.0.foundAfterDays",
    ]);
    expect(faults({ wears: [], day: 1 })).toEqual(["day"]);
    expect(faults({ wears: [], riskTarget: 10 })).toEqual(["riskTarget"]);
    expect(faults({ wears: [], event: ["stillOn"] })).toEqual(["event.0"]);
    expect(faults({ wears: [wear], referenceGroup: "flat" })).toEqual(["referenceGroup"]);
  });
});

/** Paths of numbers that are not finite, and of values JSON would drop. */
function unholdable(value: unknown, path = ""): string[] {
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${path} = ${value}`];
  if (value === undefined) return [`${path} = undefined`];
  if (value === null || typeof value !== "object") return [];
  return Object.entries(value).flatMap(([key, inner]) => unholdable(inner, `${path}.${key}`));
}
