import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clockHourAt, mirror, mirrorHour, moved, onClock, radiusAtClockHour, selfViewHour } from "./clock.ts";
import { outlineOf, type Point } from "./shape.ts";

const hours = Array.from({ length: 12 }, (_, at) => at + 1);

describe("the clock round a stoma", () => {
  it("has 12 toward the head, 3 at the person's left, 6 toward the feet, 9 at the right", () => {
    const places: Point[] = [
      [0, 1],
      [1, 0],
      [0, -1],
      [-1, 0],
    ];
    expect(places.map((place) => clockHourAt(place, [0, 0]))).toEqual([12, 3, 6, 9]);
  });

  it("shows mirrored hours on the liner side: 1 as 11, 3 as 9, 12 and 6 where they were", () => {
    expect(hours.map(mirrorHour)).toEqual([11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 12]);
  });

  it("shows 12, 3, 6, 9 as 6, 9, 12, 3 to the person who looks down", () => {
    expect([12, 3, 6, 9].map(selfViewHour)).toEqual([6, 9, 12, 3]);
  });

  it("comes back to the hour when mirrored twice, or turned for the person twice", () => {
    for (const hour of hours) {
      expect(mirrorHour(mirrorHour(hour))).toBe(hour);
      expect(selfViewHour(selfViewHour(hour))).toBe(hour);
    }
  });

  it("shows any number of hours as one above 0 and up to 12", () => {
    expect([0, 12, 24, -1, 13.5].map(onClock)).toEqual([12, 12, 12, 11, 1.5]);
  });
});

describe("the mirrored outline", () => {
  it("is the outline again when mirrored twice", () => {
    const coordinate = fc.double({ min: -50, max: 50, noNaN: true }).map((mm) => mm + 0);
    fc.assert(
      fc.property(fc.array(fc.tuple(coordinate, coordinate), { minLength: 3 }), (outline) => {
        expect(mirror(mirror(outline))).toEqual(outline.map(([x, y]) => [x === 0 ? 0 : x, y]));
      }),
    );
  });

  it("of an oval tilted by an angle is the oval tilted by minus that angle", () => {
    const leaning = (tiltDeg: number) =>
      outlineOf({ guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg } });
    const [mirrored, other] = [mirror(leaning(20)), leaning(-20)];
    for (const hour of hours) {
      expect(radiusAtClockHour(mirrored, hour)).toBeCloseTo(radiusAtClockHour(other, hour)!, 9);
    }
  });

  it("shows at the mirrored hour what the outline has at the hour", () => {
    const outline = moved(outlineOf({ guide: { shape: "round", diameterMm: 30 } }), [4, 2]);
    for (const hour of hours) {
      expect(radiusAtClockHour(mirror(outline), mirrorHour(hour), [0, 0])).toBeCloseTo(
        radiusAtClockHour(outline, hour, [0, 0])!,
        9,
      );
    }
  });
});

describe("the radius at a clock hour", () => {
  it("is half the length at 12 and half the width at 3 of an upright oval", () => {
    const oval = outlineOf({ guide: { shape: "oval", lengthMm: 35, widthMm: 25, tiltDeg: 0 } });
    expect(radiusAtClockHour(oval, 12)).toBeCloseTo(17.5, 9);
    expect(radiusAtClockHour(oval, 3)).toBeCloseTo(12.5, 9);
  });

  it("is the outermost one where a ray meets the outline more than once", () => {
    const notched = [
      [-10, -10],
      [10, -10],
      [10, 10],
      [2, 10],
      [2, 4],
      [-2, 4],
      [-2, 10],
      [-10, 10],
    ] as const;
    expect(radiusAtClockHour(notched, 12, [0, 0])).toBe(4);
    expect(radiusAtClockHour(notched, 12, [0, -20])).toBe(24);
  });

  it("is missing where the ray meets nothing", () => {
    const outline = outlineOf({ guide: { shape: "round", diameterMm: 10 } });
    expect(radiusAtClockHour(outline, 12, [0, 20])).toBeNull();
  });
});
