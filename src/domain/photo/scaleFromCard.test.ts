import { describe, expect, it } from "vitest";
import { homographyOf, mapped } from "./mapping/homography.ts";
import { type FourCorners, id1Card, scaleFromCard } from "./scaleFromCard.ts";

const [w, h] = [id1Card.widthMm / 2, id1Card.heightMm / 2];
const corners: FourCorners = [
  [200, 180],
  [980, 240],
  [940, 760],
  [160, 660],
];

describe("a picture scaled by a card of ISO/IEC 7810 ID-1 size", () => {
  it("puts the marked corners 85.60 mm and 53.98 mm apart", () => {
    const { toMm } = scaleFromCard(corners);
    const [a, b, c] = corners.map(toMm);
    expect(Math.hypot(b![0] - a![0], b![1] - a![1])).toBeCloseTo(85.6, 6);
    expect(Math.hypot(c![0] - b![0], c![1] - b![1])).toBeCloseTo(53.98, 6);
  });

  it("measures an outline beside the card as it is, slant and all", () => {
    const onCard = [
      [-w, h],
      [w, h],
      [w, -h],
      [-w, -h],
    ] as const;
    const seen = homographyOf(onCard.map((from, at) => ({ from, to: corners[at]! })));
    const circle = Array.from({ length: 90 }, (_, k) => {
      const angle = (k * Math.PI) / 45;
      return [60 + 15 * Math.cos(angle), 15 * Math.sin(angle)] as const;
    });
    for (const [x, y] of scaleFromCard(corners).outlineMm(circle.map((place) => mapped(seen, place)))) {
      expect(Math.hypot(x - 60, y)).toBeCloseTo(15, 6);
    }
  });

  it("is less sure than a frame card, the less the larger the length", () => {
    const { uncertaintyMm } = scaleFromCard(corners);
    expect(uncertaintyMm(20)).toBeGreaterThan(0.6);
    expect(uncertaintyMm(60)).toBeGreaterThan(uncertaintyMm(20));
  });

  it("refuses corners that cross over or lie on a line", () => {
    const [a, b, c, d] = corners;
    expect(() => scaleFromCard([a, c, b, d])).toThrow(/corners/);
    expect(() =>
      scaleFromCard([
        [0, 0],
        [1, 0],
        [2, 0],
        [3, 0],
      ]),
    ).toThrow(/corners/);
  });
});
