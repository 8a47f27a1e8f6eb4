import { describe, expect, it } from "vitest";
import { unfitDay } from "./fitsUntil.ts";

/** 30 + 10·exp(−t/20): 36.1 mm on day 10, 33.7 mm on day 20. */
const shrinking = { startMm: 40, finalMm: 30, timeConstantDays: 20 };
const rising = { startMm: 30, finalMm: 40, timeConstantDays: 20 };
const record = { maxGapMm: 3, firstDay: 7, lastDay: 21 };

describe("the day an opening stops fitting", () => {
  it("is the day the gap each side passes the limit", () => {
    // a 38 mm opening with 3 mm each side fits down to 32 mm: 30 + 10·exp(−t/20) = 32
    expect(unfitDay(shrinking, { ...record, openingMm: 38 })).toBeCloseTo(20 * Math.log(5), 10);
  });

  it("never comes where the final size still fits", () => {
    expect(unfitDay(shrinking, { ...record, openingMm: 35 })).toBe(Number.POSITIVE_INFINITY);
  });

  it("is the day it passed, where it has passed already", () => {
    expect(unfitDay(shrinking, { ...record, openingMm: 41 })).toBeCloseTo(20 * Math.log(2), 10);
    expect(unfitDay(shrinking, { ...record, openingMm: 60 })).toBe(7);
  });

  it("is the last reading's day where the opening is still inside a shrinking stoma", () => {
    expect(unfitDay(shrinking, { ...record, openingMm: 32 })).toBe(21);
  });

  it("is the day a rising stoma outgrows the opening", () => {
    expect(unfitDay(rising, { ...record, openingMm: 38 })).toBeCloseTo(20 * Math.log(5), 10);
    expect(unfitDay(rising, { ...record, openingMm: 35 })).toBeCloseTo(20 * Math.log(2), 10);
    expect(unfitDay(rising, { ...record, openingMm: 50 })).toBe(21);
  });

  it("never comes for a stoma that keeps its size", () => {
    const level = { startMm: 33, finalMm: 33, timeConstantDays: 20 };
    expect(unfitDay(level, { ...record, openingMm: 35 })).toBe(Number.POSITIVE_INFINITY);
  });
});
