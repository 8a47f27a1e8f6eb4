import { describe, expect, it } from "vitest";
import { addDays } from "../calendar.ts";
import { defaultProtocol, type Protocol, protocolWith } from "../protocol/index.ts";
import { byUrgency, measureDueOn, type RecentWear, reasonsFor, type StomaFacts } from "./index.ts";

const today = "2026-11-25";

const settled: StomaFacts = {
  clockStartOn: addDays(today, -200),
  lastMeasuredOn: addDays(today, -1),
  gap: null,
  fitsUntilOn: null,
  wears: [],
};

const reasons = (facts: Partial<StomaFacts>, protocol: Protocol = defaultProtocol) =>
  reasonsFor({ ...settled, ...facts }, protocol, today);
const codes = (facts: Partial<StomaFacts>, protocol?: Protocol) =>
  reasons(facts, protocol).map(({ code }) => code);

/** A wear that ended some days ago. */
function wear(daysAgo: number, days = 3, more: Partial<RecentWear> = {}): RecentWear {
  return { endedOn: addDays(today, -daysAgo), days, planned: false, shortBelowDays: 2, ...more };
}

describe("the rhythm of measuring", () => {
  // The facts' check value 11: day 56 after surgery still belongs to the new stoma, day 57 does not
  // (WOCN discharge planning sheet; JWOCN 2015;42:79-82: size changes for 6 to 8 weeks).
  it.each([
    [0, 7],
    [55, 7],
    [56, 7],
    [57, 30],
    [200, 30],
  ])("after a reading on day %i is every %i days", (day, everyDays) => {
    const clockStartOn = "2026-06-01";
    const lastMeasuredOn = addDays(clockStartOn, day);
    expect(measureDueOn({ clockStartOn, lastMeasuredOn }, defaultProtocol)).toMatchObject({
      everyDays,
      dueOn: addDays(lastMeasuredOn, everyDays),
    });
  });

  it("counts from the start of the clock where nothing was measured yet", () => {
    const due = measureDueOn({ clockStartOn: "2026-11-20", lastMeasuredOn: null }, defaultProtocol);
    expect(due).toEqual({ dueOn: "2026-11-27", everyDays: 7, key: "measureEveryDaysNew" });
  });

  it.each([
    [26, [], undefined],
    [27, ["measureDue"], -3],
    [30, ["measureDue"], 0],
    [31, ["measureDue"], 1],
  ])("of a settled stoma measured %i days ago asks: %j", (daysAgo, expected, overdueDays) => {
    const found = reasons({ lastMeasuredOn: addDays(today, -daysAgo) });
    expect(found.map(({ code }) => code)).toEqual(expected);
    expect(found[0]?.params.overdueDays).toBe(overdueDays);
  });

  it("says when it is due, was due, or comes, and what to do", () => {
    const said = (daysAgo: number) => reasons({ lastMeasuredOn: addDays(today, -daysAgo) })[0];
    expect(said(28)).toMatchObject({
      text: "Measuring is due in 2 days: 28 days since the last reading.",
      act: "Plan it with the next change.",
    });
    expect(said(30)?.text).toBe("Measuring is due today: 30 days since the last reading.");
    expect(said(31)).toMatchObject({
      text: "Measuring was due 1 day ago: 31 days since the last reading.",
      act: "Measure again.",
    });
    expect(reasons({ lastMeasuredOn: null })[0]?.text).toContain("not measured yet");
  });

  it("follows the clinic's own protocol, and names the value", () => {
    const protocol = protocolWith({ measureEveryDaysSettled: 60 });
    expect(codes({ lastMeasuredOn: addDays(today, -40) }, protocol)).toEqual([]);
    expect(reasons({ lastMeasuredOn: addDays(today, -60) }, protocol)[0]?.protocol).toEqual([
      { key: "measureEveryDaysSettled", value: 60 },
    ]);
  });
});

describe("the opening in use", () => {
  const gap = (widestMm: number, narrowestMm: number) => ({
    gap: { widestMm, narrowestMm, widestAtHour: 4 },
  });

  // Hospital health library sizing sheet (2020): 1/16 to 1/8 inch of skin shown all round.
  it.each([
    [3.2, 0, []],
    [3.21, 1, ["openingTooLarge"]],
    [3, 0, []],
    [3, -0.01, ["openingTooSmall"]],
    [9, -0.5, ["openingTooSmall"]],
  ])("with a gap of %f to %f mm: %j", (widest, narrowest, expected) => {
    expect(codes(gap(widest, narrowest))).toEqual(expected);
  });

  it("is told with its figure, its clock hour and what to do, the same day", () => {
    expect(reasons(gap(4.84, 1))[0]).toMatchObject({
      level: "sameDay",
      text: "The opening in use leaves up to 4.8 mm of skin bare, widest at 4 o’clock.",
      act: "Send a new cutting sheet.",
      protocol: [{ key: "maxGapMm", value: 3.2 }],
    });
    expect(reasons(gap(2, -1.2))[0]).toMatchObject({ level: "sameDay", act: "Cut a larger opening." });
  });

  it.each([
    [1, []],
    [0, ["openingOutgrown"]],
    [-4, ["openingOutgrown"]],
  ])("that stops fitting in %i days by the curve: %j", (inDays, expected) => {
    expect(codes({ fitsUntilOn: addDays(today, inDays), ...gap(2, 1) })).toEqual(expected);
  });

  it("that is too large already needs no forecast", () => {
    expect(codes({ fitsUntilOn: addDays(today, -4), ...gap(5, 1) })).toEqual(["openingTooLarge"]);
  });

  it("that nobody has written down gives no reason", () => {
    expect(codes({ gap: null, fitsUntilOn: null })).toEqual([]);
  });
});

describe("changes before their time", () => {
  // Two or more unplanned changes in 7 days, or wear under 48 hours twice: nurse review. Common practice, no source.
  it.each([
    [[wear(6), wear(1)], ["unplannedChanges"]],
    [[wear(7), wear(1)], []],
    [[wear(1)], []],
    [[wear(6, 3, { planned: true }), wear(1)], []],
    [[wear(13, 1.9), wear(1, 1.9)], ["shortWear"]],
    [[wear(14, 1.9), wear(1, 1.9)], []],
    [[wear(13, 2), wear(1, 1.9)], []],
    [[wear(13, 1.9, { planned: true }), wear(1, 1.9)], []],
    [
      [wear(2, 1), wear(1, 1)],
      ["unplannedChanges", "shortWear"],
    ],
  ])("%j", (wears, expected) => {
    expect(codes({ wears })).toEqual(expected);
  });

  it("are told with how many, in how long, and which values fired", () => {
    const [unplanned, short] = reasons({ wears: [wear(3, 1.5), wear(2, 1), wear(1, 0.5)] });
    expect(unplanned).toMatchObject({ text: "3 unplanned changes in 7 days.", level: "nextContact" });
    expect(short).toMatchObject({ text: "3 wears in 14 days were short: 1.5, 1.0, 0.5 days." });
    expect(short?.protocol.map(({ key }) => key)).toEqual([
      "shortWearCount",
      "shortWearHours",
      "shortWearWindowDays",
    ]);
  });

  it("of a closed pouch are held against their own plan, and say so", () => {
    const closed = (daysAgo: number) => ({ ...wear(daysAgo, 0.1), shortBelowDays: 0.286 });
    const short = reasons({ wears: [closed(2), closed(1)] }).find(({ code }) => code === "shortWear");
    expect(short?.protocol.map(({ key }) => key)).toContain("shortWearShareOfPlan");
  });
});

describe("what comes first", () => {
  it("is the level, then what has waited longest past its limit", () => {
    const lines = [
      { level: "nextContact" as const, waitedDays: 9 },
      { level: "sameDay" as const, waitedDays: 0 },
      { level: "nextContact" as const, waitedDays: 12 },
      { level: "now" as const, waitedDays: 0 },
    ];
    expect([...lines].sort(byUrgency).map(({ level, waitedDays }) => `${level} ${waitedDays}`)).toEqual([
      "now 0",
      "sameDay 0",
      "nextContact 12",
      "nextContact 9",
    ]);
  });

  it("of one stoma is the opening before the measuring", () => {
    const facts = {
      lastMeasuredOn: addDays(today, -40),
      gap: { widestMm: 5, narrowestMm: 1, widestAtHour: 12 },
    };
    expect(codes(facts)).toEqual(["openingTooLarge", "measureDue"]);
  });
});
