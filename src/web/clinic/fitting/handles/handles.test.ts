import { describe, expect, it } from "vitest";
import { areaMm2, outlineOf, type Point } from "../../../../domain/outline/index.ts";
import { handleHours, handleRangeMm, handlesOf, hourWords, withHandleAt } from "./index.ts";

const round = outlineOf({ guide: { shape: "round", diameterMm: 30 } });
const radiusAt = (outline: typeof round, hour: number, count: 12 | 24 = 12) =>
  handlesOf(outline, count).find((handle) => handle.hour === hour)!.radiusMm;

describe("handles stand on the clock", () => {
  it("twelve on the hours, twenty-four with the halves", () => {
    expect(handleHours(12)).toEqual([12, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
    expect(handleHours(24).slice(0, 4)).toEqual([12, 0.5, 1, 1.5]);
    expect(handlesOf(round, 24)).toHaveLength(24);
  });

  it("an upright oval 31 by 28 mm reads 15.5 at twelve and 14.0 at three", () => {
    const oval = outlineOf({ guide: { shape: "oval", lengthMm: 31, widthMm: 28, tiltDeg: 0 } });
    expect(radiusAt(oval, 12)).toBeCloseTo(15.5, 9);
    expect(radiusAt(oval, 3)).toBeCloseTo(14, 9);
  });

  it("an hour is read out as on a clock", () => {
    expect([12, 0.5, 4, 4.5].map(hourWords)).toEqual([
      "12 o’clock",
      "half past 12",
      "4 o’clock",
      "half past 4",
    ]);
  });
});

describe("moving a handle", () => {
  it("sets its own radius and leaves every other handle where it was", () => {
    const bulged = withHandleAt(round, 4, 18.3, 12)!;
    for (const { hour, radiusMm } of handlesOf(bulged, 12)) {
      expect(radiusMm).toBeCloseTo(hour === 4 ? 18.3 : 15, 2);
    }
  });

  it("with twenty-four handles the change stays within half an hour on either side", () => {
    const bulged = withHandleAt(round, 0.5, 17, 24)!;
    expect(radiusAt(bulged, 0.5, 24)).toBeCloseTo(17, 2);
    expect(radiusAt(bulged, 12, 24)).toBeCloseTo(15, 2);
    expect(radiusAt(bulged, 1, 24)).toBeCloseTo(15, 2);
  });

  it("all handles out by 1 mm is the outline 1 mm larger: the shares of neighbours add up to one", () => {
    const grown = handleHours(12).reduce((outline, hour) => withHandleAt(outline, hour, 16, 12)!, round);
    expect(areaMm2(grown) / (Math.PI * 16 ** 2)).toBeCloseTo(1, 3);
  });

  it("keeps the detail of a tracing between the handles", () => {
    const notched = round.map(([x, y], i): Point => (i === 15 ? [x * 0.98, y * 0.98] : [x, y]));
    const moved = withHandleAt(notched, 6, 17, 12)!;
    expect(moved[15]).toEqual(notched[15]);
  });

  it("stays between its limits however far it is pulled", () => {
    expect(radiusAt(withHandleAt(round, 4, -5, 12)!, 4)).toBeCloseTo(handleRangeMm.least, 1);
    expect(radiusAt(withHandleAt(round, 4, 900, 12)!, 4)).toBeCloseTo(handleRangeMm.most, 1);
  });

  it("an edit that would run the outline through itself is not made", () => {
    // A hook: the ray at three o'clock meets it three times; pulled in, its outer strand would cross the inner.
    const hook: Point[] = [
      [0, 10],
      [-10, 0],
      [0, -10],
      [20, -10],
      [20, 3],
      [12, 3],
      [12, 0.5],
      [14, 0.5],
      [14, 1],
      [16, 1],
      [16, -5],
      [2, -5],
      [2, 10],
    ];
    expect(withHandleAt(hook, 3, 3, 12)).toBeNull();
  });
});
