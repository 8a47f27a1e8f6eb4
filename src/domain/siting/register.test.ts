import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../fault.ts";
import type { Point } from "../outline/index.ts";
import { registerPosture } from "./index.ts";

const shared: Point[] = [
  [0, 0],
  [-125, -78],
  [125, -78],
  [0, -165],
  [10, 120],
];

function seenFrom(map: (at: Point) => Point) {
  return shared.map((seen) => ({ seen, onMap: map(seen) }));
}

describe("postures registered to each other by shared landmarks", () => {
  it("a picture that is turned, scaled and shifted comes back with no residual", () => {
    const map = ([x, y]: Point): Point => [5 + 0.9 * x - 0.3 * y, -7 + 0.3 * x + 0.9 * y];
    for (const method of ["similarity", "affine"] as const) {
      const { place, maxMm } = registerPosture(seenFrom(map), method);
      expect(maxMm).toBeLessThan(1e-9);
      expect(place([40, -50])[0]).toBeCloseTo(map([40, -50])[0], 9);
    }
  });

  it("skin that folds up head to foot needs the affine map; the similarity says by its residual that it does not fit", () => {
    const map = ([x, y]: Point): Point => [x, 0.7 * y];
    expect(registerPosture(seenFrom(map), "affine").maxMm).toBeLessThan(1e-9);
    expect(registerPosture(seenFrom(map), "similarity").maxMm).toBeGreaterThan(10);
  });

  it("no small change of the fit lessens the residual: it is the least-squares one", () => {
    const wobble = [3, -2, 4, -5, 1];
    const marks = seenFrom(([x, y]) => [x + 2, y - 3]).map(({ seen, onMap }, at) => ({
      seen,
      onMap: [onMap[0] + wobble[at]!, onMap[1] - wobble[(at + 2) % 5]!] as Point,
    }));
    const { place, rmsMm } = registerPosture(marks, "similarity");
    const small = fc.double({ min: -0.02, max: 0.02, noNaN: true });
    const change = fc.tuple(small, small, small, small);
    fc.assert(
      fc.property(change, ([turn, scale, dx, dy]) => {
        const squared = marks.map(({ seen, onMap }) => {
          const [x, y] = place(seen);
          const moved = [x + scale * x - turn * y + dx, y + turn * x + scale * y + dy] as const;
          return (moved[0] - onMap[0]) ** 2 + (moved[1] - onMap[1]) ** 2;
        });
        const rms = Math.sqrt(squared.reduce((sum, value) => sum + value, 0) / marks.length);
        expect(rms).toBeGreaterThanOrEqual(rmsMm - 1e-9);
      }),
    );
  });

  it("refuses too few landmarks, one place, and for the affine map one line", () => {
    const marks = seenFrom((at) => at);
    expect(() => registerPosture(marks.slice(0, 2), "similarity")).toThrow(InputError);
    expect(() => registerPosture(marks.slice(0, 3), "affine")).toThrow(InputError);
    const onePlace = marks.map(({ onMap }) => ({ seen: [1, 1] as Point, onMap }));
    expect(() => registerPosture(onePlace, "similarity")).toThrow(InputError);
    const oneLine = marks.map(({ onMap }, at) => ({ seen: [at, 2 * at] as Point, onMap }));
    expect(() => registerPosture(oneLine, "affine")).toThrow(InputError);
  });
});
