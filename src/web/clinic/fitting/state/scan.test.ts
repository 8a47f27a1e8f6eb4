import { describe, expect, it } from "vitest";
import type { Point } from "../../../../domain/outline/index.ts";
import { apartPx, leastApartPx, newScan, onPicture, onPlate, toScale } from "./scan.ts";

const scan = newScan("blob:picture", 800, 600, 80);
const near = ([x, y]: Point, [toX, toY]: Point) => {
  expect(x).toBeCloseTo(toX, 9);
  expect(y).toBeCloseTo(toY, 9);
};

describe("a scan is brought to scale by two marks a known distance apart", () => {
  const marked = {
    ...scan,
    marks: [
      [-250, 200],
      [250, 200],
    ] as const,
  };

  it("a bar of 50 mm that is 500 pixels long makes a tenth of a millimetre a pixel", () => {
    const scaled = toScale(marked, 50)!;
    expect(scaled).toMatchObject({ mmPerPx: 0.1, toScale: true });
    const [a, b] = scaled.marks.map((mark) => onPlate(scaled, mark)) as [Point, Point];
    expect(Math.hypot(b[0] - a[0], b[1] - a[1])).toBeCloseTo(50, 9);
  });

  it("marks that lie too close, or no distance, give no scale", () => {
    const close = {
      ...scan,
      marks: [
        [0, 0],
        [leastApartPx - 1, 0],
      ] as const,
    };
    expect(apartPx(close)).toBe(leastApartPx - 1);
    expect(toScale(close, 50)).toBeNull();
    expect(toScale(marked, 0)).toBeNull();
    expect(toScale(marked, Number.NaN)).toBeNull();
  });
});

describe("a place on the picture and on the plate are the same place", () => {
  it.each([
    ["as it is", {}],
    ["turned", { turnDeg: 37 }],
    ["mirrored", { mirrored: true }],
    ["turned, mirrored and moved", { turnDeg: -100, mirrored: true, middleMm: [4, -9] as Point }],
  ])("%s", (_name, change) => {
    const placed = { ...scan, ...change };
    near(onPicture(placed, onPlate(placed, [123, -45])), [123, -45]);
  });

  it("pixels count downward, millimetres upward; a quarter turn clockwise brings nine o'clock to twelve", () => {
    near(onPlate(scan, [0, -100]), [0, 10]);
    near(onPlate({ ...scan, turnDeg: 90 }, [-100, 0]), [0, 10]);
  });

  it("mirrored, the picture's left is the person's left", () => {
    near(onPlate({ ...scan, mirrored: true }, [-100, 0]), [10, 0]);
  });
});
