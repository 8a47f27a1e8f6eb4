import { describe, expect, it } from "vitest";
import { addDays, calendarDaysBetween } from "./calendar.ts";

describe("calendar days", () => {
  it.each([
    ["2026-11-25", "2026-11-25", 0],
    ["2026-11-25", "2026-11-26", 1],
    ["2026-11-26", "2026-11-25", -1],
    ["2024-02-28", "2024-03-01", 2],
    ["2026-02-28", "2026-03-01", 1],
    ["2026-03-28", "2026-03-30", 2],
    ["2026-10-24", "2026-10-26", 2],
    ["1999-12-31", "2000-01-01", 1],
    ["2025-11-25", "2026-11-25", 365],
  ])("from %s to %s are %i, whatever the clocks do between", (from, to, days) => {
    expect(calendarDaysBetween(from, to)).toBe(days);
    expect(addDays(from, days)).toBe(to);
  });

  it("are whole at every step of forty years", () => {
    let date = "1990-01-01";
    for (let day = 1; day < 365 * 40; day += 1) {
      date = addDays(date, 1);
      expect(calendarDaysBetween("1990-01-01", date)).toBe(day);
    }
  });
});
