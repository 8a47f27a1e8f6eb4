import { describe, expect, it } from "vitest";
import { defaultProtocol as protocol } from "../protocol/index.ts";
import type { Empty } from "./emptying.ts";
import { fillsOf } from "./fills.ts";

const at = (hour: number) => new Date(Date.UTC(2026, 10, 20, hour)).toISOString();
const fillsFrom = (empties: Empty[], more: object = {}) =>
  fillsOf(
    {
      empties,
      stomaType: "ileostomy",
      pouchCapacityMl: 500,
      nightCapacityMl: 2000,
      lastEmptiedAt: at(400),
      ...more,
    },
    protocol,
  );
const volumes = (empties: Empty[], more?: object) =>
  fillsFrom(empties, more).fills.map(({ volumeMl }) => volumeMl);

describe("what an emptying tells", () => {
  it("is the volume since the one before; the first tells nothing", () => {
    const { fills, coveredHours } = fillsFrom([
      { at: at(8), fraction: 1 },
      { at: at(12), fraction: 0.4 },
      { at: at(14), volumeMl: 90 },
    ]);
    expect(fills.map(({ volumeMl }) => volumeMl)).toEqual([200, 90]);
    expect(fills.map(({ isJudged }) => isJudged)).toEqual([true, false]);
    expect(coveredHours).toBe(6);
  });

  // Six emptyings of a third of 500 mL are 1000 mL.
  it("adds up: six times a third of 500 mL is a litre", () => {
    const empties = Array.from({ length: 7 }, (_, i) => ({ at: at(4 * i), fraction: 1 / 3 }));
    expect(volumes(empties).reduce((a, b) => a + b)).toBeCloseTo(1000, 9);
  });

  it("is the same in whatever order the log comes", () => {
    const empties = [8, 12, 15].map((hour) => ({ at: at(hour), fraction: hour / 20 }));
    expect(volumes([...empties].reverse())).toEqual(volumes(empties));
  });

  it("counts a night bag by its own capacity", () => {
    expect(
      volumes([
        { at: at(0), fraction: 0 },
        { at: at(8), fraction: 0.3, from: "nightBag" },
      ]),
    ).toEqual([600]);
  });

  it("is nothing where the pouch was found empty", () => {
    expect(
      volumes([
        { at: at(0), fraction: 0.3 },
        { at: at(3), fraction: 0 },
      ]),
    ).toEqual([0]);
  });

  it("is no output where only gas was let out: the fill goes on", () => {
    const { fills, leftOut } = fillsFrom([
      { at: at(0), fraction: 0.3 },
      { at: at(2), gas: true },
      { at: at(4), fraction: 0.5 },
    ]);
    expect(fills.map(({ fromMs, toMs }) => (toMs - fromMs) / 3_600_000)).toEqual([4]);
    expect(leftOut.gas).toBe(0);
  });
});

describe("what is missing is missing, not zero", () => {
  it.each([
    [
      "gap",
      [
        { at: at(0), fraction: 0.3 },
        { at: at(9), fraction: 0.5 },
      ],
      { logGaps: [{ from: at(3), to: at(5) }] },
    ],
    [
      "gas",
      [
        { at: at(0), fraction: 0.3 },
        { at: at(4), fraction: 0.5, gas: true },
      ],
      {},
    ],
    ["noVolume", [{ at: at(0), fraction: 0.3 }, { at: at(4) }], {}],
    [
      "tooLong",
      [
        { at: at(0), fraction: 0.3 },
        { at: at(17), fraction: 0.5 },
      ],
      {},
    ],
  ] as const)("%s", (why, empties, more) => {
    const { fills, leftOut, coveredHours } = fillsFrom([...empties], more);
    expect([fills.length, coveredHours, leftOut[why]]).toEqual([0, 0, 1]);
  });

  it("a gap that only touches an emptying leaves it its fill", () => {
    const empties = [
      { at: at(5), fraction: 0.3 },
      { at: at(9), fraction: 0.5 },
    ];
    expect(volumes(empties, { logGaps: [{ from: at(0), to: at(5) }] })).toEqual([250]);
  });

  it("sixteen hours may be a night with its margins; a colostomy may rest for three days", () => {
    const rest = (hours: number) => [
      { at: at(0), fraction: 0.3 },
      { at: at(hours), fraction: 0.5 },
    ];
    expect([volumes(rest(16)), volumes(rest(17))]).toEqual([[250], []]);
    expect([72, 73].map((hours) => volumes(rest(hours), { stomaType: "colostomy" }))).toEqual([[250], []]);
  });

  it("the log of more than four weeks ago tells of another stoma", () => {
    const empties = [-400, -396, 300, 304].map((hour) => ({ at: at(hour), fraction: 0.4 }));
    expect(fillsFrom(empties).fills).toHaveLength(1);
  });
});
