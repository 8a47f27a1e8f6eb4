import { describe, expect, it } from "vitest";
import { clockIn, quartersOf, stretchesBetween, timeOfQuarter } from "./clock.ts";

const hours = (from: string, to: string, zone: string) =>
  stretchesBetween(Date.parse(from), Date.parse(to), clockIn(zone));
const length = (stretches: { from: number; to: number }[]) =>
  stretches.reduce((sum, { from, to }) => sum + (to - from), 0) / 4;

describe("elapsed time on a person's clock", () => {
  it.each([
    ["Europe/London", "2026-06-01T23:00:00Z", "2026-06-02T23:00:00Z", 24, [[0, 96]]],
    // The clocks go forward at 01:00 and back at 02:00.
    [
      "Europe/London",
      "2026-03-29T00:00:00Z",
      "2026-03-29T23:00:00Z",
      23,
      [
        [0, 4],
        [8, 96],
      ],
    ],
    [
      "Europe/London",
      "2026-10-24T23:00:00Z",
      "2026-10-26T00:00:00Z",
      25,
      [
        [0, 8],
        [4, 96],
      ],
    ],
    // Half an hour in Lord Howe; no quarter past a whole hour in Kathmandu.
    [
      "Australia/Lord_Howe",
      "2026-10-03T13:30:00Z",
      "2026-10-04T13:00:00Z",
      23.5,
      [
        [0, 8],
        [10, 96],
      ],
    ],
    ["Asia/Kathmandu", "2026-06-01T18:15:00Z", "2026-06-02T18:15:00Z", 24, [[0, 96]]],
  ])("a day in %s from %s has its hours, and the clock's own course", (zone, from, to, long, spans) => {
    const stretches = hours(from, to, zone);
    expect(length(stretches)).toBeCloseTo(long, 9);
    expect(stretches.map((stretch) => [stretch.from, stretch.to])).toEqual(spans);
    expect(new Set(stretches.map(({ date }) => date)).size).toBe(1);
  });

  it("is cut at midnight, and keeps parts of quarters", () => {
    expect(hours("2026-01-05T23:50:00Z", "2026-01-06T00:05:00Z", "UTC")).toEqual([
      { date: "2026-01-05", from: expect.closeTo(95 + 1 / 3, 9), to: 96 },
      { date: "2026-01-06", from: 0, to: expect.closeTo(1 / 3, 9) },
    ]);
  });

  it("has a next half past ten, whatever the clocks do", () => {
    const clock = clockIn("Europe/London");
    const next = (time: string, from: string) => new Date(clock.next(time, Date.parse(from))).toISOString();
    expect(next("22:30", "2026-03-28T12:00:00Z")).toBe("2026-03-28T22:30:00.000Z");
    expect(next("22:30", "2026-03-28T22:31:00Z")).toBe("2026-03-29T21:30:00.000Z");
    expect(next("22:30", "2026-03-28T22:30:00Z")).toBe("2026-03-28T22:30:00.000Z");
    // 01:30 does not exist on the 29th, and comes twice in October.
    expect(next("01:30", "2026-03-29T00:10:00Z")).toBe("2026-03-29T01:30:00.000Z");
    expect(next("01:30", "2026-10-25T00:10:00Z")).toBe("2026-10-25T00:30:00.000Z");
  });

  it("tells quarters as times, and back", () => {
    expect([0, 26, 95, 96, -1].map(timeOfQuarter)).toEqual(["00:00", "06:30", "23:45", "00:00", "23:45"]);
    expect(quartersOf("06:40")).toBeCloseTo(26 + 2 / 3, 9);
  });
});
