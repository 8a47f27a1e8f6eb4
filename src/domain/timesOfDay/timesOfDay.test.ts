import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { timesOfDay } from "./index.ts";

const someHours = fc.array(fc.double({ min: 0, max: 23.999, noNaN: true }), { minLength: 1, maxLength: 20 });

describe("times of day", () => {
  it("round midnight have their mean at midnight, not at noon", () => {
    const { meanHour } = timesOfDay([23, 1]);
    expect(Math.min(meanHour!, 24 - meanHour!)).toBeCloseTo(0, 9);
  });

  it("without any have no mean, and no chance either", () => {
    expect(timesOfDay([])).toEqual({
      n: 0,
      meanHour: null,
      resultantLength: null,
      sdHours: null,
      rayleighP: null,
    });
  });

  it("that cancel out have no mean", () => {
    expect(timesOfDay([0, 8, 16]).meanHour).toBeNull();
  });

  it("turn with the clock: an hour later each, an hour later the mean, and the same spread", () => {
    fc.assert(
      fc.property(someHours, (hours) => {
        const before = timesOfDay(hours);
        const after = timesOfDay(hours.map((hour) => hour + 1));
        expect(after.resultantLength).toBeCloseTo(before.resultantLength!, 9);
        if (before.resultantLength! < 1e-6) return;
        const turned = (after.meanHour! - before.meanHour! + 24) % 24;
        expect(turned).toBeCloseTo(1, 5);
      }),
    );
  });
});
