import { describe, expect, it } from "vitest";
import { at, dateOf, instantAt, isPlainDate, sortMs, timeZone, todayIn } from "./index.ts";

const hour = 3_600_000;

describe("the date of an instant", () => {
  it.each([
    ["2026-11-25T23:30:00Z", "Europe/London", "2026-11-25"],
    ["2026-11-25T23:30:00Z", "Europe/Berlin", "2026-11-26"],
    ["2026-11-25T04:30:00Z", "America/New_York", "2026-11-24"],
    ["2026-11-25T10:30:00Z", "Pacific/Kiritimati", "2026-11-26"],
    ["2026-11-25T10:30:00Z", "Pacific/Pago_Pago", "2026-11-24"],
    ["2026-06-25T23:30:00Z", "Europe/London", "2026-06-26"],
    ["2011-12-29T23:00:00Z", "Pacific/Apia", "2011-12-29"],
    ["2011-12-30T23:00:00Z", "Pacific/Apia", "2011-12-31"],
  ])("%s in %s is %s", (instant, zone, expected) => {
    expect(dateOf({ instant, zone })).toBe(expected);
    expect(todayIn(zone, Date.parse(instant))).toBe(expected);
  });

  it("of a plain date is that date", () => {
    expect(dateOf({ date: "2026-11-25", precision: "month" })).toBe("2026-11-25");
  });
});

describe("wall clock times", () => {
  it.each(["Europe/London", "America/New_York", "Australia/Lord_Howe", "Asia/Kolkata", "America/St_Johns"])(
    "come back as they were in %s on any day of a year",
    (zone) => {
      for (let at = Date.UTC(2026, 0, 1); at < Date.UTC(2027, 0, 1); at += 24 * hour) {
        const date = new Date(at).toISOString().slice(0, 10);
        expect(dateOf({ instant: instantAt(date, 12, 0, zone), zone })).toBe(date);
      }
    },
  );

  it.each([
    ["2026-03-29", 23],
    ["2026-10-25", 25],
    ["2026-06-01", 24],
  ])("leave %s %i hours long in London", (date, hours) => {
    const next = new Date(Date.parse(date) + 24 * hour).toISOString().slice(0, 10);
    const length =
      sortMs({ instant: instantAt(next, 0, 0, "Europe/London"), zone: "UTC" }) -
      sortMs({ instant: instantAt(date, 0, 0, "Europe/London"), zone: "UTC" });
    expect(length / hour).toBe(hours);
  });

  it("that the clocks skip move forward", () => {
    expect(instantAt("2026-03-29", 1, 30, "Europe/London")).toBe("2026-03-29T01:30:00.000Z");
  });
});

describe("a time to sort by", () => {
  it("puts a plain date at its noon", () => {
    const times = [
      sortMs({ instant: "2026-11-25T11:00:00Z", zone: "UTC" }),
      sortMs({ date: "2026-11-25", precision: "day" }),
      sortMs({ instant: "2026-11-25T13:00:00Z", zone: "UTC" }),
    ];
    expect(times).toEqual([...times].sort((a, b) => a - b));
  });
});

describe("reading", () => {
  it.each(["Europe/London", "UTC", "America/Argentina/Ushuaia"])("takes the zone %s", (zone) => {
    expect(timeZone.safeParse(zone).success).toBe(true);
  });

  it.each(["", "Mars", "London", "Europe/Londn"])("refuses the zone %j", (zone) => {
    expect(timeZone.safeParse(zone).success).toBe(false);
  });

  it("takes a day of the calendar and nothing like it", () => {
    expect(["2026-02-28", "2024-02-29"].map(isPlainDate)).toEqual([true, true]);
    expect(["2026-02-29", "2026-13-01", "26-01-01", "2026-1-1", ""].some(isPlainDate)).toBe(false);
    expect(at.safeParse({ date: "2026-02-29", precision: "day" }).success).toBe(false);
  });
});
