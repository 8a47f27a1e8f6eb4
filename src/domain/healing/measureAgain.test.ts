import { describe, expect, it } from "vitest";
import { defaultProtocol, protocolWith } from "../protocol/index.ts";
import { cutAheadUntilDay } from "./advice.ts";
import { measureAgainOn } from "./measureAgain.ts";

const nothing = { fitsUntilDay: null, isWrongNow: false };
const fits = (lower80: number | null, isWrongNow = false) => ({
  fitsUntilDay: { estimate: null, lower80, upper80: null },
  isWrongNow,
});
const again = (lastDay: number, reasons = nothing as ReturnType<typeof fits> | typeof nothing) =>
  measureAgainOn(lastDay, reasons, defaultProtocol);

describe("measure again", () => {
  it("weekly through day 56, monthly after it", () => {
    expect(again(12)).toBe(19);
    expect(again(56)).toBe(63);
    expect(again(57)).toBe(87);
  });

  it("sooner where the lower limit of the fit comes sooner, on the whole day before it", () => {
    expect(again(20, fits(25.7))).toBe(25);
    expect(again(20, fits(40))).toBe(27);
    expect(again(90, fits(104.2))).toBe(104);
  });

  it("never sooner than the next planned change, and never sooner than a week once settled", () => {
    expect(again(20, fits(20.4))).toBe(23);
    expect(again(20, fits(9))).toBe(23);
    expect(again(90, fits(60))).toBe(97);
  });

  it("at the next planned change where something is wrong now, settled or not", () => {
    expect(again(20, fits(null, true))).toBe(23);
    expect(again(90, fits(null, true))).toBe(93);
  });

  it("by the clinic's own rhythm", () => {
    const protocol = protocolWith({ measureEveryDaysNew: 2, newStomaDays: 42 });
    expect(measureAgainOn(20, nothing, protocol)).toBe(22);
    expect(measureAgainOn(20, fits(5), protocol)).toBe(22);
    expect(measureAgainOn(50, nothing, protocol)).toBe(80);
  });
});

describe("cutting barriers ahead", () => {
  const facts = { measureAgainOnDay: 27, fitsUntilDay: null, rising: false, notes: [] };

  it("never passes the day to measure again", () => {
    const fitsUntilDay = { estimate: 60, lower80: 40, upper80: null };
    expect(cutAheadUntilDay({ ...facts, fitsUntilDay })).toBe(27);
    expect(cutAheadUntilDay(facts)).toBe(27);
  });

  it("never passes the day the opening is expected to stop fitting", () => {
    const fitsUntilDay = { estimate: 24.6, lower80: 18, upper80: 33 };
    expect(cutAheadUntilDay({ ...facts, fitsUntilDay })).toBe(24);
  });

  it("is not advised where the opening fails now or the size rises", () => {
    const note = { code: "openingTooSmall", params: {}, text: "" };
    expect(cutAheadUntilDay({ ...facts, notes: [note] })).toBeNull();
    expect(cutAheadUntilDay({ ...facts, rising: true })).toBeNull();
  });
});
