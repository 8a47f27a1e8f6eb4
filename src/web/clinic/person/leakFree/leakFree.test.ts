import { describe, expect, it } from "vitest";
import {
  change,
  drainable,
  entry,
  instant,
  now,
  samplePerson,
  stomaOf,
} from "../../../../../test/record/samples.ts";
import { defaultProtocol } from "../../../../domain/protocol/index.ts";
import type { BodyOf } from "../../../../record/entry/index.ts";
import { atRiskOn, compareSystems, systemsWorn, systemWear } from "./facts.ts";
import { comparisonSaid, inHundred, intervalSaid, medianSaid, planSaid } from "./words.ts";

const person = samplePerson();
const hourMs = 3_600_000;

/** Changes so many days apart, each for its reason, the last one `since` days before now. */
function worn(
  wears: readonly (readonly [days: number, why: BodyOf<"changed">["why"]])[],
  endedDaysAgo: number,
  systemName: string,
) {
  let atMs = now - endedDaysAgo * 24 * hourMs - wears.reduce((sum, [days]) => sum + days, 0) * 24 * hourMs;
  const fitted = entry(
    "fitted",
    { system: { ...drainable.system, name: systemName }, plannedIntervalDays: 3.5 },
    { ...person.about, at: instant(new Date(atMs - hourMs).toISOString()) },
  );
  const put = (body: BodyOf<"changed">) =>
    entry("changed", body, { ...person.about, at: instant(new Date(atMs).toISOString()) });
  const entries = [fitted, put(change())];
  for (const [days, why] of wears) {
    atMs += days * 24 * hourMs;
    entries.push(put(change(why)));
  }
  return entries;
}

const flat = worn(
  [
    [1.5, "leakPastEdge"],
    [2, "leakUnderBarrier"],
    [1, "leakPastEdge"],
    [3.5, "planned"],
  ],
  12,
  "flat",
);
const convex = worn(
  [
    [3.5, "planned"],
    [3.4, "planned"],
    [3.5, "planned"],
  ],
  1,
  "convex",
);
const stoma = stomaOf([...person.entries, ...flat, ...convex]);

describe("how long the seal holds", () => {
  it("is told of the system in use first", () => {
    expect(systemsWorn(stoma)).toEqual(["convex", "flat"]);
  });

  it("counts output past the edge and under the barrier as leaks, and a barrier still on as at risk", () => {
    const before = systemWear(stoma, "flat", defaultProtocol, now)!;
    const inUse = systemWear(stoma, "convex", defaultProtocol, now)!;
    expect([before.leaks, inUse.leaks]).toEqual([3, 0]);
    expect(inUse.wears).toBe(4);
    expect(atRiskOn(inUse.curve, 0)).toBe(4);
    expect(atRiskOn(inUse.curve, 2)).toBe(3);
    expect(medianSaid(inUse).text).toBe("No leak in 4 wears, the longest 3.5 days.");
  });

  it("names no day to change by where the seal fails too soon, and asks to review the fit", () => {
    const before = systemWear(stoma, "flat", defaultProtocol, now)!;
    expect(before.interval.estimate).toBeNull();
    expect(intervalSaid(before).text).toMatch(/review the fit/);
    expect(planSaid(before).text).toBe("Changes are now planned every 3.5 days.");
  });

  it("gives what a change interval rests on", () => {
    const { notes = [] } = intervalSaid(systemWear(stoma, "convex", defaultProtocol, now)!);
    expect(notes.join(" ")).toMatch(/Protocol: 10 % accepted/);
    expect(notes.join(" ")).toMatch(/4 wears of this person/);
  });
});

describe("two systems side by side", () => {
  const pair = [
    systemWear(stoma, "convex", defaultProtocol, now)!,
    systemWear(stoma, "flat", defaultProtocol, now)!,
  ] as const;
  const said = comparisonSaid(compareSystems(stoma, "convex", "flat", now), pair);

  it("differ by so many leak-free days, with limits", () => {
    const difference = said.find(({ code }) => code === "difference");
    expect(difference?.text).toMatch(/gives \d\.\d days more leak-free/);
    expect(difference?.notes?.[0]).toMatch(/^95 %: [+−]\d\.\d to \+\d\.\d days\./);
  });

  it("come with how few wears that rests on", () => {
    const test = said.find(({ code }) => code === "logRank");
    expect(test?.notes?.[0]).toBe("From 4 and 5 wears with 0 and 3 leaks.");
  });

  it("leave no p of the test without words", () => {
    expect(inHundred(0.03)).toBe("3 in 100 times");
    expect(inHundred(0.004)).toBe("4 in 1,000 times");
    expect(inHundred(0.0002)).toBe("less than once in 1,000 times");
  });
});
