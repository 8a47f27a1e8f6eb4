import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { findCrossing } from "./crossing.ts";
import type { Outline, Point } from "./shape.ts";

const loop = (count: number, radius: (turn: number) => number): Outline =>
  Array.from({ length: count }, (_, at): Point => {
    const turn = (2 * Math.PI * at) / count;
    return [radius(turn) * Math.cos(turn), radius(turn) * Math.sin(turn)];
  });

/** Every pair of edges that share no point, by the sign of four areas. */
function crossesByHand(outline: Outline): boolean {
  const count = outline.length;
  const side = (a: Point, b: Point, c: Point) =>
    Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
  return outline.some((a, i) =>
    outline.some((c, j) => {
      if (j < i + 2 || (i === 0 && j === count - 1)) return false;
      const [b, d] = [outline[(i + 1) % count]!, outline[(j + 1) % count]!];
      return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
    }),
  );
}

describe("looking for a crossing", () => {
  it("finds none in a lobed outline", () => {
    expect(findCrossing(loop(400, (turn) => 15 + 3 * Math.cos(5 * turn)))).toBeNull();
  });

  it("finds the one place where an outline runs through itself", () => {
    const outline: Outline = [
      [0, 0],
      [10, 0],
      [10, 6],
      [4, -2],
      [0, 6],
    ];
    const crossing = findCrossing(outline)!;
    expect(crossing.kind).toBe("crosses");
    expect(crossing.atMm[1]).toBeCloseTo(0, 12);
    expect(crossing.edges[0]).toBe(0);
  });

  it("agrees with a test of every pair of edges, for any points", () => {
    const point = fc.tuple(fc.integer({ min: -1000, max: 1000 }), fc.integer({ min: -1000, max: 1000 }));
    fc.assert(
      fc.property(fc.uniqueArray(point, { minLength: 4, maxLength: 12, selector: String }), (outline) => {
        const crossing = findCrossing(outline);
        if (crossesByHand(outline)) expect(crossing).not.toBeNull();
        else if (crossing) expect(crossing.kind).not.toBe("crosses");
      }),
      { numRuns: 500 },
    );
  });

  it("looks through 2,000 points in less than a tenth of a second", () => {
    const outline = loop(2000, (turn) => 15 + Math.cos(7 * turn));
    findCrossing(outline);
    const start = performance.now();
    findCrossing(outline);
    expect(performance.now() - start).toBeLessThan(100);
  });
});
