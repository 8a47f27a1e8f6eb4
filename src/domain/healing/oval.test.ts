import { describe, expect, it } from "vitest";
import { cutAheadUntilDay } from "./advice.ts";
import { healingCurve } from "./healingCurve.ts";
import { healingOfOval, type OvalHealingInput } from "./oval.ts";
import type { HealingReading } from "./readings.ts";

const days = [6, 13, 20, 27, 34];
const tracings = (sizeOn: (day: number) => number): HealingReading[] =>
  days.map((day) => ({ day, diameterMm: sizeOn(day), method: "tracing" }));

/** A loop stoma whose length shrinks and whose width hardly does. */
const lengthReadings = tracings((day) => 34 + 14 * Math.exp(-day / 18));
const widthReadings = tracings((day) => 28 + 1 * Math.exp(-day / 18));
const oval = (opening: OvalHealingInput["opening"], more: Partial<OvalHealingInput> = {}) =>
  healingOfOval({ lengthReadings, widthReadings, opening, ...more });
const never = Number.POSITIVE_INFINITY;

describe("an oval stoma", () => {
  it("has a curve for its length and one for its width", () => {
    const { length, width } = oval(undefined);
    expect(length).toEqual(healingCurve({ readings: lengthReadings }));
    expect(width).toEqual(healingCurve({ readings: widthReadings }));
  });

  it("stops fitting with the axis that leaves the larger gap", () => {
    const { fitsUntilDay, length, width } = oval({ lengthMm: 41.5, widthMm: 31 });
    expect(length.fitsUntilDay!.estimate!).toBeLessThan(60);
    expect(width.fitsUntilDay!.estimate).toBeNull();
    expect(fitsUntilDay!.estimate!).toBeLessThanOrEqual(length.fitsUntilDay!.estimate!);
    expect(fitsUntilDay!.estimate!).toBeGreaterThan(length.fitsUntilDay!.lower80!);
  });

  it("fits no longer than either axis, at every limit", () => {
    for (const widthMm of [31, 33, 34, 34.5]) {
      const { fitsUntilDay, length, width } = oval({ lengthMm: 41.5, widthMm });
      for (const limit of ["lower80", "estimate", "upper80"] as const) {
        const sooner = Math.min(length.fitsUntilDay![limit] ?? never, width.fitsUntilDay![limit] ?? never);
        expect(fitsUntilDay![limit] ?? never).toBeLessThanOrEqual(sooner + 0.5);
      }
    }
  });

  it("fails where the opening is inside one axis, though the other is roomy", () => {
    const result = oval({ lengthMm: 40, widthMm: 27 });
    const note = result.notes.find(({ code }) => code === "openingTooSmall")!;
    expect(note.params.axis).toBe("width");
    expect(result.measureAgainOnDay).toBe(37);
    expect(cutAheadUntilDay(result)).toBeNull();
  });

  it("rises where one axis rises", () => {
    const risen = widthReadings.map((one) => (one.day === 34 ? { ...one, diameterMm: 34 } : one));
    const result = oval(undefined, { widthReadings: risen });
    expect(result.rising).toBe(true);
    expect(result.length.rising).toBe(false);
    expect(result.notes.find(({ code }) => code === "rising")!.params.axis).toBe("width");
  });

  it("has no fits-until day where one axis has no forecast", () => {
    const result = oval({ lengthMm: 41, widthMm: 32 }, { widthReadings: widthReadings.slice(-2) });
    expect(result.length.fitsUntilDay).not.toBeNull();
    expect(result.fitsUntilDay).toBeNull();
    expect(result.notes.map(({ code }) => code)).toContain("tooFewReadings");
    expect(result.measureAgainOnDay).toBeLessThanOrEqual(41);
  });

  it("states its advice once, with dates", () => {
    const result = oval({ lengthMm: 38, widthMm: 31 }, { surgeryOn: "2025-03-01" });
    expect(result.notes.filter(({ code }) => code === "advisedDays")).toHaveLength(1);
    expect(result.measureAgainOnDay).toBe(41);
    expect(result.dates!.measureAgainOn).toBe("2025-04-11");
  });

  it("takes the earlier of both curves under plain least squares", () => {
    const bend = (noise: number[]) => (reading: HealingReading, i: number) => ({
      ...reading,
      diameterMm: reading.diameterMm + noise[i]!,
    });
    const result = healingOfOval({
      lengthReadings: lengthReadings.map(bend([0.1, -0.1, -0.1, 0.2, -0.1])),
      widthReadings: widthReadings.map(bend([0.01, -0.01, -0.01, 0.02, -0.01])),
      opening: { lengthMm: 42, widthMm: 31 },
      prior: "none",
    });
    expect(result.fitsUntilDay!.estimate).toBe(result.length.fitsUntilDay!.estimate);
  });
});
