import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { closedPath } from "./closedPath.ts";

/** Cost of every closed path of small costs, by trying them all. */
function leastOfAll(rays: number, radii: number, costs: Float32Array, stiffness: number): number {
  let least = Number.POSITIVE_INFINITY;
  const path = new Array<number>(rays).fill(0);
  const go = (ray: number, sum: number) => {
    if (ray === rays) {
      least = Math.min(least, sum + stiffness * (path[rays - 1]! - path[0]!) ** 2);
      return;
    }
    for (let r = 0; r < radii; r++) {
      path[ray] = r;
      const step = ray === 0 ? 0 : stiffness * (r - path[ray - 1]!) ** 2;
      go(ray + 1, sum + step + costs[ray * radii + r]!);
    }
  };
  go(0, 0);
  return least;
}

function costOf(path: Int32Array, radii: number, costs: Float32Array, stiffness: number): number {
  let sum = 0;
  path.forEach((r, ray) => {
    sum += costs[ray * radii + r]! + stiffness * (r - path[(ray + path.length - 1) % path.length]!) ** 2;
  });
  return sum;
}

describe("the closed way round", () => {
  it("is hardly ever dearer than the cheapest of all, and never by much", () => {
    const [rays, radii, stiffness] = [6, 4, 0.3];
    let exact = 0;
    let tried = 0;
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
          minLength: rays * radii,
          maxLength: rays * radii,
        }),
        (values) => {
          const costs = Float32Array.from(values);
          const cost = costOf(closedPath({ rays, radii, costs }, stiffness), radii, costs, stiffness);
          const least = leastOfAll(rays, radii, costs, stiffness);
          tried += 1;
          if (cost < least + 1e-6) exact += 1;
          expect(cost).toBeLessThan(least + 0.6);
        },
      ),
      { numRuns: 60, seed: 20261125 },
    );
    expect(exact / tried).toBeGreaterThan(0.9);
  });

  it("meets its own start, however the cheap ring winds", () => {
    const [rays, radii] = [60, 40];
    const wave = (ray: number) => Math.round(20 + 8 * Math.cos((2 * Math.PI * ray) / rays));
    const costs = Float32Array.from({ length: rays * radii }, (_, at) =>
      Math.abs((at % radii) - wave(Math.floor(at / radii))),
    );
    expect([...closedPath({ rays, radii, costs }, 0.01)]).toEqual(
      Array.from({ length: rays }, (_, ray) => wave(ray)),
    );
  });
});
