import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { defaultProtocol, protocolDefinitions, protocolWith } from "../protocol/index.ts";
import { healingCurve } from "./healingCurve.ts";
import type { HealingReading } from "./readings.ts";
import type { HealingResult } from "./result.ts";

/** The same runs every time; each fits a curve or more. */
const runs = (numRuns: number) => ({ numRuns, seed: 20 });

const STEP_MM = 3.175;

/** Three to seven weekly readings of a shrinking stoma, tracings and rings mixed. */
const records = fc
  .record({
    finalMm: fc.double({ min: 20, max: 40, noNaN: true }),
    shrinkMm: fc.double({ min: 1, max: 12, noNaN: true }),
    timeConstantDays: fc.double({ min: 6, max: 40, noNaN: true }),
    each: fc.array(
      fc.record({ isRing: fc.boolean(), noiseMm: fc.double({ min: -0.8, max: 0.8, noNaN: true }) }),
      {
        minLength: 3,
        maxLength: 7,
      },
    ),
  })
  .map(({ finalMm, shrinkMm, timeConstantDays, each }): HealingReading[] =>
    each.map(({ isRing, noiseMm }, i) => {
      const day = 6 + 7 * i;
      const sizeMm = finalMm + shrinkMm * Math.exp(-day / timeConstantDays) + noiseMm;
      return isRing
        ? { day, diameterMm: Math.ceil(sizeMm / STEP_MM) * STEP_MM, method: "guide", stepMm: STEP_MM }
        : { day, diameterMm: sizeMm, method: "tracing" };
    }),
  );

const weekAhead = ({ forecast }: HealingResult, readings: readonly HealingReading[]) => {
  const day = Math.max(...readings.map((reading) => reading.day)) + 7;
  return forecast!.find((one) => one.day === day)!;
};

describe.each(["weak", "none"] as const)("with prior %s", (prior) => {
  const curveOf = (readings: HealingReading[], protocol = defaultProtocol) =>
    healingCurve({ readings, prior }, protocol);

  it("the order in which readings are given changes nothing", () => {
    fc.assert(
      fc.property(records, fc.infiniteStream(fc.nat()), (readings, keys) => {
        const shuffled = readings
          .map((reading) => ({ reading, key: keys.next().value as number }))
          .sort((a, b) => a.key - b.key)
          .map(({ reading }) => reading);
        expect(curveOf(shuffled)).toEqual(curveOf(readings));
      }),
      runs(10),
    );
  });

  it("larger sizes by so much mean a larger start and final size by as much, and the same course", () => {
    fc.assert(
      fc.property(records, fc.double({ min: -15, max: 15, noNaN: true }), (readings, byMm) => {
        const shifted = curveOf(readings.map((one) => ({ ...one, diameterMm: one.diameterMm + byMm })));
        const plain = curveOf(readings);
        if (plain.finalMm === null) {
          expect(shifted.finalMm).toBeNull();
          return;
        }
        const accuracy = 1e-5 * (1 + Math.abs(plain.startMm!) + Math.abs(plain.finalMm));
        expect(Math.abs(shifted.startMm! - plain.startMm! - byMm)).toBeLessThan(accuracy);
        expect(Math.abs(shifted.finalMm! - plain.finalMm - byMm)).toBeLessThan(accuracy);
        expect(shifted.timeConstantDays! / plain.timeConstantDays!).toBeCloseTo(1, 5);
      }),
      runs(10),
    );
  });

  it("everything that is measured in millimetres twice as large gives a curve twice as large", () => {
    const mmKeys = Object.entries(protocolDefinitions).flatMap(([key, { unit }]) =>
      unit.startsWith("mm") ? [key as keyof typeof protocolDefinitions] : [],
    );
    const doubled = protocolWith(Object.fromEntries(mmKeys.map((key) => [key, 2 * defaultProtocol[key]])));
    fc.assert(
      fc.property(records, (readings) => {
        const twice = readings.map((one) => ({
          ...one,
          diameterMm: 2 * one.diameterMm,
          stepMm: one.stepMm && 2 * one.stepMm,
        }));
        const [large, small] = [curveOf(twice, doubled), curveOf(readings)];
        if (small.finalMm === null) {
          expect(large.finalMm).toBeNull();
          return;
        }
        expect(large.startMm! / small.startMm!).toBeCloseTo(2, 2);
        expect(large.finalMm! / small.finalMm).toBeCloseTo(2, 2);
        expect(large.timeConstantDays! / small.timeConstantDays!).toBeCloseTo(1, 2);
      }),
      runs(10),
    );
  });
});

it("a wider step between rings never narrows the band materially", () => {
  fc.assert(
    fc.property(records, (readings) => {
      const rings = (stepMm: number) => readings.map((one) => ({ ...one, method: "guide" as const, stepMm }));
      const widthOf = (stepMm: number) => {
        const { lower80, upper80 } = weekAhead(healingCurve({ readings: rings(stepMm) }), readings);
        return upper80 - lower80;
      };
      expect(widthOf(5)).toBeGreaterThan(0.9 * widthOf(STEP_MM));
      expect(widthOf(STEP_MM)).toBeGreaterThan(0.9 * widthOf(1));
    }),
    runs(10),
  );
});

it("a larger opening leaves too large a gap sooner, never later", () => {
  fc.assert(
    fc.property(records, fc.double({ min: 3, max: 6, noNaN: true }), (readings, roomMm) => {
      const fitsUntil = (openingMm: number) => {
        const result = healingCurve({ readings, opening: { diameterMm: openingMm } });
        const { estimate, lower80 } = result.fitsUntilDay!;
        return [estimate, lower80].map((day) => day ?? Number.POSITIVE_INFINITY) as [number, number];
      };
      const lastMm = readings.at(-1)!.diameterMm;
      const [tight, loose] = [fitsUntil(lastMm + roomMm), fitsUntil(lastMm + roomMm + 1.5)];
      expect(loose[0]).toBeLessThanOrEqual(tight[0]);
      expect(loose[1]).toBeLessThanOrEqual(tight[1]);
    }),
    runs(10),
  );
});

it("the advice never passes the rhythm, and cutting ahead never passes measuring again", () => {
  fc.assert(
    fc.property(records, fc.double({ min: -3, max: 8, noNaN: true }), (readings, roomMm) => {
      const lastDay = readings.at(-1)!.day;
      const openingMm = readings.at(-1)!.diameterMm + roomMm;
      const { measureAgainOnDay, notes } = healingCurve({ readings, opening: { diameterMm: openingMm } });
      const advised = notes.find(({ code }) => code === "advisedDays")!.params;
      expect(measureAgainOnDay).toBeGreaterThan(lastDay);
      expect(measureAgainOnDay).toBeLessThanOrEqual(lastDay + defaultProtocol.measureEveryDaysNew);
      expect((advised.cutAheadUntilDay as number | null) ?? 0).toBeLessThanOrEqual(measureAgainOnDay);
    }),
    runs(20),
  );
});
