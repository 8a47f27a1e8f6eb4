import { describe, expect, it } from "vitest";
import { defaultProtocol, protocolWith } from "../protocol/index.ts";
import { healingCurve } from "./healingCurve.ts";
import type { HealingReading } from "./readings.ts";
import type { HealingInput, HealingResult } from "./result.ts";

const STEP_MM = 3.175;

/** 28 + 12·exp(−t/18), as a tracing would show it. */
const sizeOn = (day: number) => 28 + 12 * Math.exp(-day / 18);
const tracings = (...days: number[]): HealingReading[] =>
  days.map((day) => ({ day, diameterMm: sizeOn(day), method: "tracing" }));
const guideReadings = (...days: number[]): HealingReading[] =>
  days.map((day) => ({ day, diameterMm: Math.ceil(sizeOn(day) / STEP_MM) * STEP_MM, method: "guide" }));

const codesOf = ({ notes }: HealingResult) => notes.map(({ code }) => code);
const forecastOn = ({ forecast }: HealingResult, day: number) => forecast!.find((one) => one.day === day)!;

describe("the person's own readings rule", () => {
  const result = healingCurve({ readings: tracings(6, 13, 20, 27, 34, 41, 48, 55) });

  it("eight tracings find the curve they were taken from", () => {
    expect(Math.abs(result.finalMm! - 28)).toBeLessThan(0.7);
    expect(Math.abs(result.startMm! - 40)).toBeLessThan(2);
    expect(result.timeConstantDays).toBeGreaterThan(13);
    expect(result.timeConstantDays).toBeLessThan(25);
  });

  it("the band holds the size on every day and widens into the future", () => {
    for (const { day, mm, lower80, upper80 } of result.forecast!) {
      expect(lower80).toBeLessThan(mm);
      expect(mm).toBeLessThan(upper80);
      expect(lower80).toBeLessThan(sizeOn(day));
      expect(sizeOn(day)).toBeLessThan(upper80);
    }
    const widthOn = (day: number) => forecastOn(result, day).upper80 - forecastOn(result, day).lower80;
    expect(widthOn(83)).toBeGreaterThan(widthOn(48));
  });

  it("runs by whole days from the first reading to four weeks past the last", () => {
    expect(result.forecast!.map(({ day }) => day)).toEqual(Array.from({ length: 78 }, (_, i) => 6 + i));
  });

  it("settles when the size is within a millimetre of its final one", () => {
    // 12·exp(−t/18) = 1 on day 44.7
    expect(Math.abs(result.settledOnDay! - 18 * Math.log(12))).toBeLessThan(8);
  });
});

describe("a guide reading is a ring, not a point", () => {
  it("three equal rings say that the size lies under the ring, not on it", () => {
    const readings = [7, 14, 21].map((day) => ({ day, diameterMm: 34.925, method: "guide" as const }));
    const { mm, lower80, upper80 } = forecastOn(healingCurve({ readings }), 21);
    expect(mm).toBeGreaterThan(32.5);
    expect(mm).toBeLessThan(34);
    expect(upper80 - lower80).toBeGreaterThan(1.5);
    expect(upper80).toBeLessThan(35.2);
  });

  it("guide readings leave a wider band than tracings of the same sizes", () => {
    const widthOf = (readings: HealingReading[]) => {
      const { lower80, upper80 } = forecastOn(healingCurve({ readings }), 41);
      return upper80 - lower80;
    };
    expect(widthOf(guideReadings(6, 13, 20, 27, 34))).toBeGreaterThan(
      1.2 * widthOf(tracings(6, 13, 20, 27, 34)),
    );
  });

  it("a step without a method is a guide's", () => {
    const bare = healingCurve({ readings: [7, 14, 21].map((day) => ({ day, diameterMm: 35, stepMm: 5 })) });
    const named = healingCurve({
      readings: [7, 14, 21].map((day) => ({ day, diameterMm: 35, stepMm: 5, method: "guide" as const })),
    });
    expect(bare).toEqual(named);
  });

  it("a size estimated by eye moves the curve less than a tracing does", () => {
    const withLast = (method: "tracing" | "estimated") =>
      forecastOn(
        healingCurve({ readings: [...tracings(6, 13, 20, 27), { day: 34, diameterMm: 36, method }] }),
        34,
      ).mm;
    expect(withLast("estimated") - sizeOn(34)).toBeLessThan(0.5 * (withLast("tracing") - sizeOn(34)));
  });
});

describe("too little to forecast from", () => {
  const expectNoForecast = (result: HealingResult) => {
    expect(result.forecast).toBeNull();
    expect(result.settledOnDay).toBeNull();
    expect(result.fitsUntilDay).toBeNull();
  };
  const opening = { diameterMm: 38 };

  it("two readings give parameters, no forecast, and a day to measure again", () => {
    const result = healingCurve({ readings: tracings(6, 20), opening });
    expectNoForecast(result);
    expect(codesOf(result)).toContain("tooFewReadings");
    expect(codesOf(result)).not.toContain("tooShortSpan");
    expect(result.finalMm).toBeGreaterThan(20);
    expect(result.standardErrors!.finalMm).toBeGreaterThan(1);
    expect(result.measureAgainOnDay).toBe(27);
  });

  it("three readings within 13 days are too close together, within 14 they are not", () => {
    const close = healingCurve({ readings: tracings(6, 12, 19), opening });
    expectNoForecast(close);
    expect(codesOf(close)).toContain("tooShortSpan");
    expect(healingCurve({ readings: tracings(6, 12, 20), opening }).forecast).not.toBeNull();
  });

  it.each([
    ["one reading", tracings(6)],
    ["two readings of one day", [...tracings(6), ...guideReadings(6)]],
  ])("%s say nothing of change", (_what, readings) => {
    const result = healingCurve({ readings, opening });
    expectNoForecast(result);
    expect(result.startMm).toBeNull();
    expect(result.standardErrors).toBeNull();
    expect(codesOf(result)).toContain("oneDayOnly");
    expect(result.measureAgainOnDay).toBe(13);
  });

  it("a known size at surgery makes one later reading enough for parameters", () => {
    const result = healingCurve({ readings: tracings(20), startMm: 40 });
    expect(result.startMm).toBe(40);
    expect(result.standardErrors!.startMm).toBe(0);
    expect(result.finalMm).toBeLessThan(sizeOn(20));
  });

  it("least squares on as many readings as unknowns gives parameters without errors", () => {
    const result = healingCurve({ readings: tracings(6, 13, 20), opening, prior: "none" });
    expectNoForecast(result);
    expect(result.finalMm).toBeCloseTo(28, 6);
    expect(result.standardErrors).toBeNull();
    expect(result.residualSdMm).toBeNull();
    expect(codesOf(result)).toContain("noDegreesOfFreedom");
  });

  it("least squares on fewer, or on level sizes, gives none", () => {
    const level = [6, 13, 20, 27].map((day) => ({ day, diameterMm: 32 }));
    for (const readings of [tracings(6, 13), level]) {
      const result = healingCurve({ readings, opening, prior: "none" });
      expectNoForecast(result);
      expect(result.finalMm).toBeNull();
      expect(codesOf(result)).toContain("noCurve");
    }
  });
});

describe("the opening in use", () => {
  const readings = tracings(6, 13, 20, 27);
  const fitOf = (diameterMm: number, more: Partial<HealingInput> = {}) =>
    healingCurve({ readings, opening: { diameterMm }, ...more });

  it("fits until the gap each side passes the limit, with limits round the true day", () => {
    // 37 mm with 3.2 mm each side fits down to 30.6 mm: 28 + 12·exp(−t/18) = 30.6 on day 27.5
    const { fitsUntilDay } = fitOf(37);
    const trueDay = 18 * Math.log(12 / 2.6);
    expect(Math.abs(fitsUntilDay!.estimate! - trueDay)).toBeLessThan(5);
    expect(fitsUntilDay!.lower80!).toBeLessThan(trueDay);
    expect(fitsUntilDay!.upper80 ?? Number.POSITIVE_INFINITY).toBeGreaterThan(trueDay);
  });

  it("is judged by the radial gap that is asked for", () => {
    const wide = fitOf(37, { maxGapMm: 4 }).fitsUntilDay!;
    const narrow = fitOf(37, { maxGapMm: 3.2 }).fitsUntilDay!;
    expect(wide.lower80!).toBeGreaterThan(narrow.lower80!);
    expect(fitOf(37, { maxGapMm: defaultProtocol.maxGapMm }).fitsUntilDay).toEqual(fitOf(37).fitsUntilDay);
  });

  it("that became too large gives the day it passed, and no barrier is cut ahead", () => {
    const result = fitOf(40);
    // 40 mm fits down to 33.6 mm, passed on day 13.7
    expect(Math.abs(result.fitsUntilDay!.estimate! - 18 * Math.log(12 / 5.6))).toBeLessThan(3);
    expect(codesOf(result)).toContain("openingTooLarge");
    expect(result.notes.find(({ code }) => code === "advisedDays")!.params).toEqual({
      measureAgainOnDay: 30,
      cutAheadUntilDay: null,
    });
  });

  it("that is inside the stoma does not fit from the last reading on", () => {
    const result = fitOf(29);
    expect(result.fitsUntilDay!.estimate).toBe(27);
    expect(codesOf(result)).toContain("openingTooSmall");
    expect(result.measureAgainOnDay).toBe(30);
  });

  it("is judged by the last reading alone where there is no forecast", () => {
    const one = (reading: HealingReading, diameterMm: number) =>
      codesOf(healingCurve({ readings: [reading], opening: { diameterMm } }));
    expect(one({ day: 5, diameterMm: 38 }, 37.5)).toContain("openingTooSmall");
    expect(one({ day: 5, diameterMm: 38 }, 45)).toContain("openingTooLarge");
    expect(one({ day: 5, diameterMm: 38 }, 41)).not.toContain("fitInDoubt");
    const ring: HealingReading = { day: 5, diameterMm: 12 * STEP_MM, method: "guide" };
    expect(one(ring, 11 * STEP_MM)).toContain("openingTooSmall");
    expect(one(ring, 11.5 * STEP_MM)).toContain("fitInDoubt");
  });

  it("that fits for good has no day within the horizon, and a note says so", () => {
    const result = fitOf(31);
    expect(result.fitsUntilDay!.upper80).toBeNull();
    const horizon = result.notes.find(({ code }) => code === "beyondHorizon")!;
    expect(horizon.params.horizonDay).toBe(27 + defaultProtocol.forecastHorizonDays);
  });

  it("never makes the advice pass the day to measure again, and both days are stated", () => {
    for (const diameterMm of [29, 31, 33, 35, 36, 37, 38, 40]) {
      const result = fitOf(diameterMm);
      const { cutAheadUntilDay, measureAgainOnDay } = result.notes.find(({ code }) => code === "advisedDays")!
        .params as { cutAheadUntilDay: number | null; measureAgainOnDay: number };
      expect(measureAgainOnDay).toBe(result.measureAgainOnDay);
      expect(measureAgainOnDay).toBeLessThanOrEqual(34);
      expect(cutAheadUntilDay ?? 0).toBeLessThanOrEqual(measureAgainOnDay);
    }
  });

  it("is to be cut from the reading, never from the forecast", () => {
    expect(codesOf(fitOf(36))).toContain("cutFromReading");
  });
});

describe("least squares, plain", () => {
  it("reads the day an opening stops fitting off the curve itself", () => {
    const readings = [3, 8, 15, 22, 29, 36].map((day, i) => ({
      day,
      diameterMm: sizeOn(day) + [0.2, -0.1, -0.2, 0.2, 0, -0.1][i]!,
    }));
    const result = healingCurve({ readings, opening: { diameterMm: 36 }, prior: "none" });
    const { startMm, finalMm, timeConstantDays, fitsUntilDay } = result;
    const day =
      timeConstantDays! * Math.log((startMm! - finalMm!) / (36 - 2 * defaultProtocol.maxGapMm - finalMm!));
    expect(fitsUntilDay!.estimate).toBeCloseTo(day, 9);
    expect(fitsUntilDay!.lower80!).toBeLessThan(day);
    expect(fitsUntilDay!.upper80!).toBeGreaterThan(day);
    expect(codesOf(result)).toContain("plainLeastSquares");
  });
});

describe("odd input", () => {
  it("two readings of one day count as two", () => {
    const twice = healingCurve({ readings: [...tracings(6, 13, 20), ...tracings(20)] });
    const once = healingCurve({ readings: tracings(6, 13, 20) });
    const widthOf = (result: HealingResult) =>
      forecastOn(result, 20).upper80 - forecastOn(result, 20).lower80;
    expect(widthOf(twice)).toBeLessThan(widthOf(once));
  });

  it("a reading on the day of surgery is welcome", () => {
    const result = healingCurve({ readings: tracings(0, 7, 14) });
    expect(Math.abs(result.startMm! - 40)).toBeLessThan(1.5);
  });

  it("a start held and read on the day of surgery as well does not upset the curve", () => {
    const readings = [...guideReadings(0, 7, 14, 21)];
    const result = healingCurve({ readings, startMm: 40 });
    expect(result.startMm).toBe(40);
    expect(Math.abs(forecastOn(result, 21).mm - sizeOn(21))).toBeLessThan(2);
  });

  it("readings from long after surgery say so of the start", () => {
    expect(codesOf(healingCurve({ readings: tracings(200, 230, 260) }))).toContain("startNotSeen");
    expect(codesOf(healingCurve({ readings: tracings(6, 13, 20) }))).not.toContain("startNotSeen");
  });

  it.each([
    ["sizes no stoma has", [7, 14, 21, 28].map((day, i) => ({ day, diameterMm: [1e6, -50, 3e7, 0][i]! }))],
    [
      "sizes that jump about",
      [7, 14, 21, 28].map((day, i) => ({ day, diameterMm: [30, 60, 20, 80][i]!, stepMm: 1 })),
    ],
    ["days far apart", [0, 1e4, 1e6].map((day) => ({ day, diameterMm: 30 }))],
    ["a very fine guide", [7, 14, 21].map((day) => ({ day, diameterMm: 30, stepMm: 1e-9 }))],
    ["a very coarse guide", [7, 14, 21].map((day) => ({ day, diameterMm: 30, stepMm: 1e4 }))],
    ["exact readings", [7, 14, 21].map((day) => ({ day, diameterMm: 30, sdMm: 0 }))],
  ])("%s yield finite numbers or null", (_what, readings) => {
    for (const prior of ["weak", "none"] as const) {
      const result = healingCurve({ readings, opening: { diameterMm: 34 }, prior });
      for (const value of numbersIn(result)) expect(value).toSatisfy(Number.isFinite);
    }
  });

  it("a thousand readings are worked through", () => {
    const readings = Array.from({ length: 1000 }, (_, i) => ({
      day: i / 4,
      diameterMm: sizeOn(i / 4) + (i % 5) * 0.2 - 0.4,
      method: "tracing" as const,
    }));
    const result = healingCurve({ readings });
    expect(Math.abs(result.finalMm! - 28)).toBeLessThan(0.2);
    expect(Math.abs(result.timeConstantDays! - 18)).toBeLessThan(1);
  });

  it.each([
    ["no reading", []],
    ["a size that is not a number", [{ day: 1, diameterMm: Number.NaN }]],
    ["a day without end", [{ day: Number.POSITIVE_INFINITY, diameterMm: 30 }]],
  ])("%s is refused", (_what, readings) => {
    expect(() => healingCurve({ readings })).toThrow(/readings/);
  });
});

describe("the clinic's protocol", () => {
  it("decides when a forecast may be shown", () => {
    const strict = protocolWith({ forecastMinReadings: 5 });
    expect(healingCurve({ readings: tracings(6, 13, 20, 27) }, strict).forecast).toBeNull();
  });

  it("decides how wide the prior is: a narrow one pulls a short record to itself", () => {
    const certain = protocolWith({ shrinkMm: 0, shrinkSpreadMm: 1 });
    const readings = tracings(6, 13, 20);
    expect(healingCurve({ readings }, certain).finalMm!).toBeGreaterThan(
      healingCurve({ readings }).finalMm! + 1,
    );
  });
});

it("dates stand beside the days where the date of surgery is known", () => {
  const result = healingCurve({
    surgeryOn: "2024-02-20",
    readings: tracings(6, 13, 20, 27),
    opening: { diameterMm: 34 },
  });
  // 2024 is a leap year: day 34 is 25 March
  expect(result.measureAgainOnDay).toBe(34);
  expect(result.dates!.measureAgainOn).toBe("2024-03-25");
  expect(healingCurve({ readings: tracings(6, 13, 20) }).dates).toBeNull();
});

function numbersIn(value: unknown): number[] {
  if (typeof value === "number") return [value];
  return value !== null && typeof value === "object" ? Object.values(value).flatMap(numbersIn) : [];
}
