import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError, parseInput } from "../fault.ts";
import { skinSchema } from "./input.ts";
import { type SkinInput, skinAreas } from "./skin.ts";

const round = (diameterMm: number) => ({ guide: { shape: "round" as const, diameterMm } });
/** Closed form: a ring about a circle, by clock hours. */
const ringMm2 = (stomaMm: number, from: number, to: number, hours = 12) =>
  (Math.PI * ((stomaMm / 2 + to) ** 2 - (stomaMm / 2 + from) ** 2) * hours) / 12;

const worn: SkinInput = {
  stoma: round(30),
  opening: round(38),
  barrier: { shape: "round", diameterMm: 100 },
  findings: [],
};
const finding = (from: number, to: number, reach: [number, number], what = "redderOrDarker") => ({
  what,
  place: { hours: { from, to }, reachMm: { from: reach[0], to: reach[1] } },
});

describe("skin round a round stoma (closed form of ring and slice)", () => {
  it("an hour is a twelfth of the ring", () => {
    const { byWhat } = skinAreas({ ...worn, findings: [finding(6, 6, [0, 8])] });
    expect(byWhat[0]?.areaMm2).toBeCloseTo(ringMm2(30, 0, 8, 1), 0);
    expect(Math.abs(byWhat[0]!.areaMm2 / ringMm2(30, 0, 8, 1) - 1)).toBeLessThan(5e-4);
  });

  it("what lies within the 4 mm gap is bare, what lies beyond it is under the barrier", () => {
    const { byWhat, bareSkinMm2 } = skinAreas({ ...worn, findings: [finding(4, 8, [0, 8])] });
    expect(Math.abs(byWhat[0]!.bareMm2! / ringMm2(30, 0, 4, 5) - 1)).toBeLessThan(5e-4);
    expect(Math.abs(byWhat[0]!.underBarrierMm2! / ringMm2(30, 4, 8, 5) - 1)).toBeLessThan(5e-4);
    expect(Math.abs(bareSkinMm2! / ringMm2(30, 0, 4) - 1)).toBeLessThan(5e-4);
  });

  it("from 10 to 2 passes over 12: five hours", () => {
    const { byWhat } = skinAreas({ ...worn, findings: [finding(10, 2, [0, 8])] });
    expect(Math.abs(byWhat[0]!.areaMm2 / ringMm2(30, 0, 8, 5) - 1)).toBeLessThan(5e-4);
  });

  it("1 to 12 is all round, and beyond the barrier's edge nothing is under it", () => {
    const { byWhat } = skinAreas({ ...worn, findings: [finding(1, 12, [30, 60])] });
    expect(Math.abs(byWhat[0]!.areaMm2 / ringMm2(30, 30, 60) - 1)).toBeLessThan(5e-4);
    expect(Math.abs(byWhat[0]!.underBarrierMm2! / ringMm2(30, 30, 35) - 1)).toBeLessThan(5e-4);
  });
});

describe("words", () => {
  it("one word at two overlapping places counts the skin once", () => {
    const once = skinAreas({ ...worn, findings: [finding(3, 6, [0, 5])] }).byWhat[0]!.areaMm2;
    const twice = skinAreas({ ...worn, findings: [finding(3, 5, [0, 5]), finding(4, 6, [0, 5])] });
    expect(twice.byWhat).toHaveLength(1);
    expect(twice.byWhat[0]!.areaMm2).toBeCloseTo(once, 3);
  });

  it("two words on the same skin stay two, and are not added", () => {
    const { byWhat } = skinAreas({
      ...worn,
      findings: [finding(3, 6, [0, 5]), finding(3, 6, [0, 5], "surfaceGone")],
    });
    expect(byWhat.map(({ what }) => what)).toEqual(["redderOrDarker", "surfaceGone"]);
    expect(byWhat[0]!.areaMm2).toBeCloseTo(byWhat[1]!.areaMm2, 6);
  });
});

describe("a drawn place", () => {
  it("leaves out what lies on the stoma", () => {
    const square = [
      [0, -20],
      [20, -20],
      [20, 0],
      [0, 0],
    ] as [number, number][];
    const { byWhat } = skinAreas({ ...worn, findings: [{ what: "bleeding", place: { outline: square } }] });
    expect(byWhat[0]!.areaMm2).toBeCloseTo(400 - (Math.PI * 225) / 4, 0);
  });

  it("that crosses itself is refused by name", () => {
    const bow = [
      [20, 0],
      [30, 10],
      [30, 0],
      [20, 10],
    ] as [number, number][];
    expect(() => skinAreas({ ...worn, findings: [{ what: "bleeding", place: { outline: bow } }] })).toThrow(
      InputError,
    );
  });
});

it("without a barrier or an opening says null, never 0", () => {
  const { byWhat, bareSkinMm2 } = skinAreas({ stoma: round(30), findings: [finding(6, 6, [0, 8])] });
  expect(bareSkinMm2).toBeNull();
  expect(byWhat[0]).toMatchObject({ underBarrierMm2: null, bareMm2: null });
});

it("no part is larger than the whole, whatever is marked", () => {
  const hour = fc.integer({ min: 1, max: 12 });
  const mm = fc.double({ min: 0, max: 40, noNaN: true });
  fc.assert(
    fc.property(hour, hour, mm, fc.double({ min: 0.5, max: 30, noNaN: true }), (from, to, near, deep) => {
      const { byWhat } = skinAreas({ ...worn, findings: [finding(from, to, [near, near + deep])] });
      const { areaMm2, underBarrierMm2, bareMm2 } = byWhat[0]!;
      expect(underBarrierMm2! + bareMm2!).toBeLessThanOrEqual(areaMm2 + 0.01);
    }),
    { numRuns: 60 },
  );
});

it("a reach that ends before it begins is refused", () => {
  expect(() => parseInput(skinSchema, { ...worn, findings: [finding(1, 2, [5, 5])] })).toThrow(InputError);
});
