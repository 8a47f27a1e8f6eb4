import { describe, expect, it } from "vitest";
import { longDay, nearDay, plainDay, roughDay, timeOfDay, whenWords } from "./dates.ts";
import { faultWords } from "./faults.ts";
import { stomaWords } from "./kinds.ts";
import { capitalNumber, counted, days, readDecimal } from "./numbers.ts";

describe("a figure that a nurse types", () => {
  it("may have a decimal point or a decimal comma", () => {
    expect(readDecimal("31.5")).toBe(31.5);
    expect(readDecimal("31,5")).toBe(31.5);
    expect(readDecimal(" 31 ")).toBe(31);
    expect(readDecimal("-2,5")).toBe(-2.5);
    expect(readDecimal(".5")).toBe(0.5);
  });

  it("is refused when it could mean two things or none", () => {
    expect(readDecimal("1,234.5")).toBeNull();
    expect(readDecimal("1.234,5")).toBeNull();
    expect(readDecimal("31 mm")).toBeNull();
    expect(readDecimal("")).toBeNull();
    expect(readDecimal("1e3")).toBeNull();
  });
});

describe("dates in words", () => {
  it("carry the weekday where somebody plans by them", () => {
    expect(longDay("2026-11-25")).toBe("Wednesday 25 November");
  });

  it("carry the year only where it is another one", () => {
    expect(plainDay("2026-11-25", "2026-12-01")).toBe("25 November");
    expect(plainDay("2025-11-25", "2026-12-01")).toBe("25 November 2025");
  });

  it("call today and yesterday by their names", () => {
    expect(nearDay("2026-11-25", "2026-11-25")).toBe("today");
    expect(nearDay("2026-11-24", "2026-11-25")).toBe("yesterday");
    expect(nearDay("2026-11-26", "2026-11-25")).toBe("26 November");
  });

  it("say no more than is known", () => {
    expect(roughDay({ date: "2019-05-01", precision: "year" }, "2026-11-25")).toBe("2019");
    expect(roughDay({ date: "2019-05-01", precision: "month" }, "2026-11-25")).toBe("May 2019");
  });

  it("give an instant as the clock showed it where it was lived", () => {
    const instant = "2026-07-01T23:30:00Z";
    expect(timeOfDay(instant, "Europe/London")).toBe("00:30");
    expect(whenWords({ instant, zone: "Europe/London" }, "2026-07-02")).toBe("today 00:30");
    expect(whenWords({ instant, zone: "America/New_York" }, "2026-07-02")).toBe("yesterday 19:30");
  });
});

describe("numbers in words", () => {
  it("agree with what they count", () => {
    expect(counted(1, "person", "people")).toBe("1 person");
    expect(counted(3412, "person", "people")).toBe("3,412 people");
    expect(days(1)).toBe("1 day");
    expect(days(3.5)).toBe("3.5 days");
    expect(capitalNumber(2)).toBe("Two");
    expect(capitalNumber(31)).toBe("31");
  });
});

it("a stoma is called by its construction and type", () => {
  expect(stomaWords("ileostomy", "loop")).toBe("loop ileostomy");
  expect(stomaWords("fistula", "other")).toBe("fistula");
});

it("a fault names its field as the page does", () => {
  const fault = {
    path: "entries.1.body.surgeryOn.date",
    problem: "lies in the future",
    got: "",
    expected: "today or earlier",
  };
  expect(faultWords(fault)).toBe("Date of surgery: lies in the future. Expected today or earlier.");
});
