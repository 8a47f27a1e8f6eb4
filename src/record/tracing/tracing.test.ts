import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  areaMm2,
  dimensionsOf,
  outlineOf,
  type Point,
  radiusAtClockHour,
} from "../../domain/outline/index.ts";
import {
  asDrawn,
  drawnLoop,
  evenlySpaced,
  furthestApartMm,
  placed,
  readTracing,
  smoothed,
  tracedOutline,
  UnreadableTracing,
  withoutLongEdges,
} from "./index.ts";

const bytes = (text: string) => new TextEncoder().encode(text);
const oval = outlineOf({ guide: { shape: "oval", lengthMm: 31, widthMm: 28, tiltDeg: 20 } });

describe("a file is read by what it holds, not by its name", () => {
  const svg =
    '<svg xmlns="http://www.w3.org/2000/svg" width="9cm" height="9cm" viewBox="0 0 90 90"><circle r="15"/></svg>';
  it("an SVG drawing, with and without a byte order mark", () => {
    expect(readTracing(bytes(svg)).format).toBe("svg");
    expect(readTracing(bytes(`\uFEFF\n${svg}`)).format).toBe("svg");
  });

  it("a list of points, also in UTF-16 as some spreadsheets save it", () => {
    const text = "\uFEFFx;y\r\n0;0\r\n30,5;0\r\n0;20";
    const utf16 = new Uint8Array(new Uint16Array([...text].map((c) => c.charCodeAt(0))).buffer);
    expect(readTracing(utf16).outlines[0]!.widthMm).toBe(30.5);
  });

  it.each([
    ["a PNG", [0x89, 0x50, 0x4e, 0x47, 13, 10], "picture"],
    ["a JPEG", [0xff, 0xd8, 0xff, 0xe0], "picture"],
    ["a PDF", [0x25, 0x50, 0x44, 0x46], "picture"],
    ["bytes that are no text", [0xc3, 0x28, 0xa0], "notText"],
  ])("%s is refused with what to do", (_name, start, code) => {
    expect(() => readTracing(new Uint8Array(start))).toThrow(UnreadableTracing);
    try {
      readTracing(new Uint8Array(start));
    } catch (error) {
      expect((error as UnreadableTracing).note.code).toBe(code);
    }
  });

  it("a file of more than 5 MB is refused unread", () => {
    expect(() => readTracing(new Uint8Array(5_000_001))).toThrow(/too large/);
  });
});

describe("placing keeps size and shape", () => {
  it("a quarter turn clockwise brings what lay at nine o'clock to twelve", () => {
    const spike = placed(
      [
        [-20, 0],
        [0, -5],
        [5, 0],
        [0, 5],
      ],
      { ...asDrawn, turnDeg: 90 },
    );
    const highest = spike.reduce((a, b) => (b[1] > a[1] ? b : a));
    expect(highest[0]).toBeCloseTo(0, 9);
  });

  it("a mirrored tracing has its four o'clock at eight", () => {
    const seen = placed(oval, asDrawn);
    const mirrored = placed(oval, { ...asDrawn, mirrored: true });
    expect(radiusAtClockHour(mirrored, 8)).toBeCloseTo(radiusAtClockHour(seen, 4)!, 6);
    expect(Math.abs(radiusAtClockHour(mirrored, 4)! - radiusAtClockHour(seen, 4)!)).toBeGreaterThan(0.3);
  });

  it("turned and mirrored at any angle, area and calipers stay the same and the centroid is the origin", () => {
    fc.assert(
      fc.property(fc.double({ min: -180, max: 180, noNaN: true }), fc.boolean(), (turnDeg, mirrored) => {
        const outline = placed(oval, { turnDeg, mirrored, scale: 1 });
        expect(areaMm2(outline)).toBeCloseTo(areaMm2(oval), 6);
        expect(dimensionsOf(outline).feretMaxMm).toBeCloseTo(31, 6);
        expect(() => outlineOf({ outline })).not.toThrow();
      }),
      { numRuns: 50 },
    );
  });

  it("twice the scale is four times the area", () => {
    expect(areaMm2(placed(oval, { ...asDrawn, scale: 2 }))).toBeCloseTo(4 * areaMm2(oval), 6);
  });
});

describe("smoothing takes the tremor and leaves the size", () => {
  const tremor = (n: number) => 0.35 * Math.sin(37 * n) + 0.25 * Math.cos(59 * n + 1);
  const shaky = Array.from({ length: 300 }, (_, i): Point => {
    const turn = (i * 2 * Math.PI) / 300;
    const r = 15 + tremor(turn);
    return [r * Math.cos(turn), r * Math.sin(turn)];
  });
  const circle = outlineOf({ guide: { shape: "round", diameterMm: 30 } });

  it.each(["little", "much"] as const)(
    "%s: a shaky circle of 30 mm comes back to within 0.1 mm of one",
    (amount) => {
      const smooth = smoothed(shaky, amount);
      expect(furthestApartMm(smooth, circle)).toBeLessThan(0.1);
      expect(Math.abs(areaMm2(smooth) / areaMm2(circle) - 1)).toBeLessThan(0.005);
    },
  );

  it("an oval drawn steadily moves by less than 0.05 mm", () => {
    expect(furthestApartMm(oval, smoothed(oval, "little"))).toBeLessThan(0.05);
    expect(furthestApartMm(oval, smoothed(oval, "much"))).toBeLessThan(0.05);
  });

  it("“none” is the line itself", () => {
    expect(smoothed(oval, "none")).toBe(oval);
  });
});

describe("points along a line", () => {
  it("evenly spaced points keep the line's length between them", () => {
    const points = evenlySpaced(
      [
        [0, 0],
        [10, 0],
        [10, 10],
        [0, 10],
      ],
      8,
    );
    expect(points).toEqual([
      [0, 0],
      [5, 0],
      [10, 0],
      [10, 5],
      [10, 10],
      [5, 10],
      [0, 10],
      [0, 5],
    ]);
  });

  it("long edges are parted without changing the shape", () => {
    const fine = withoutLongEdges(
      [
        [0, 0],
        [10, 0],
        [10, 10],
        [0, 10],
      ],
      3,
    );
    expect(fine).toHaveLength(16);
    expect(areaMm2(fine)).toBeCloseTo(100, 9);
  });

  it("a line of two points, or one that encloses nothing, is no outline", () => {
    expect(
      tracedOutline("line", [
        [0, 0],
        [1, 1],
      ]),
    ).toBeNull();
    expect(
      tracedOutline("line", [
        [0, 0],
        [5, 0],
        [10, 0],
        [0, 0],
      ]),
    ).toBeNull();
  });
});

describe("a line drawn by hand becomes a loop", () => {
  const arc = (fromDeg: number, toDeg: number, radius = (_deg: number) => 15) =>
    Array.from({ length: 200 }, (_, i): Point => {
      const deg = fromDeg + ((toDeg - fromDeg) * i) / 199;
      const turn = (deg * Math.PI) / 180;
      return [radius(deg) * Math.cos(turn), radius(deg) * Math.sin(turn)];
    });

  it("tails of a hand that went past its start are cut off where they cross", () => {
    // The hand starts 1 mm outside the line and ends 1 mm inside it, 30 degrees past its start.
    const overlapping = arc(0, 390, (deg) => 16 - (2 * deg) / 390);
    const crossed = overlapping.map(([x, y], i): Point => (i > 185 ? [x + 0.25 * (i - 185), y] : [x, y]));
    const loop = drawnLoop(crossed);
    expect(loop.length).toBeLessThan(crossed.length);
    expect(tracedOutline("line", loop)).toMatchObject({ problem: null });
  });

  it("ends that do not meet are left for a straight edge", () => {
    const open = arc(10, 350);
    expect(drawnLoop(open)).toBe(open);
    expect(tracedOutline("line", open)!.joinedMm).toBeCloseTo(2 * 15 * Math.sin((10 * Math.PI) / 180), 1);
  });

  it("a figure of eight stays one, and is refused with the place", () => {
    const eight = Array.from({ length: 100 }, (_, i): Point => {
      const turn = (2 * Math.PI * (i + 0.5)) / 100;
      return [10 * Math.sin(turn), 10 * Math.sin(2 * turn)];
    });
    expect(drawnLoop(eight)).toBe(eight);
    expect(tracedOutline("line", eight)!.problem!.code).toBe("crossesItself");
  });
});
