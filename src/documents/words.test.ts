import { describe, expect, it } from "vitest";
import { dayInWords, isDay, plainDate, rangeInWords } from "./words.ts";

describe("dates and ranges in words", () => {
  it("a day is said with its weekday, a birth date without", () => {
    expect(dayInWords("2026-11-25")).toBe("Wed 25 November 2026");
    expect(plainDate("1951-04-03")).toBe("3 April 1951");
    expect(dayInWords("2028-02-29")).toBe("Tue 29 February 2028");
  });

  it("knows what is no day", () => {
    for (const text of ["2026-02-29", "2026-13-01", "25.11.2026", "2026-11-25T10:00", ""])
      expect(isDay(text)).toBe(false);
    expect(isDay("2028-02-29")).toBe(true);
  });

  it("gives one figure where both ends print alike, else a range", () => {
    expect(rangeInWords({ min: 2.0, max: 2.04 })).toBe("2.0 mm");
    expect(rangeInWords({ min: 32, max: 35 })).toBe("32.0 to 35.0 mm");
  });
});
