import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError, parseInput } from "../fault.ts";
import {
  boundaryOf,
  type GuideReading,
  moved,
  type Outline,
  outlineOf,
  type Point,
} from "../outline/index.ts";
import { exposedSkin } from "./exposed.ts";
import { exposedTopic } from "./topic.ts";

const round = (diameterMm: number) => ({ guide: { shape: "round", diameterMm } satisfies GuideReading });
const ovalOf = (lengthMm: number, widthMm: number, tiltDeg = 0) => ({
  guide: { shape: "oval", lengthMm, widthMm, tiltDeg } satisfies GuideReading,
});

describe("the skin in an opening", () => {
  it("of 36 mm round a stoma of 28 mm is a ring 4 mm wide", () => {
    const skin = exposedSkin({ stoma: round(28), opening: round(36) });
    expect(skin.maxGapMm).toBeCloseTo(4, 3);
    expect(skin.minGapMm).toBeCloseTo(4, 3);
    expect(skin.exposedSkinMm2).toBeCloseTo(Math.PI * (18 ** 2 - 14 ** 2), 0);
    expect(skin.overlapMm2).toBe(0);
    expect(skin.expected).toBeNull();
  });

  it("is the same in every hour of an even ring: a twelfth", () => {
    const { byClockHour, exposedSkinMm2 } = exposedSkin({ stoma: round(28), opening: round(36) });
    expect(byClockHour.map(({ hour }) => hour)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12]);
    for (const { areaMm2 } of byClockHour) expect(areaMm2).toBeCloseTo(exposedSkinMm2 / 12, 9);
  });

  it("of a quarter ring 10 mm wide round a radius of 15 mm is 314 mm2", () => {
    // A = (arc/360) x pi x (R_out^2 - R_in^2), arithmetic; three hours are 90 degrees
    const { byClockHour } = exposedSkin({ stoma: round(30), opening: round(50) });
    const threeHours = byClockHour.slice(2, 5).reduce((sum, { areaMm2 }) => sum + areaMm2, 0);
    expect(Math.abs(threeHours / 314.159 - 1)).toBeLessThan(1e-4);
  });

  it("of a round hole over an upright oval lies at 3 and 9 o'clock", () => {
    const { byClockHour } = exposedSkin({ stoma: ovalOf(32, 24), opening: round(33) });
    const gap = (hour: number) => byClockHour[hour - 1]!.maxGapMm!;
    expect(gap(3)).toBeCloseTo(4.5, 3);
    expect(gap(9)).toBeCloseTo(4.5, 3);
    expect(byClockHour[11]!.minGapMm).toBeCloseTo(0.5, 3);
    expect(gap(12)).toBeLessThan(gap(2));
  });

  it("grows at the person's left when the opening slips to the left", () => {
    const slipped = exposedSkin({ stoma: round(28), opening: round(34), offsetMm: [1.5, 0] });
    expect(slipped.byClockHour[2]!.maxGapMm).toBeCloseTo(4.5, 3);
    expect(slipped.byClockHour[8]!.minGapMm).toBeCloseTo(1.5, 3);
    expect(slipped.byClockHour[2]!.areaMm2).toBeGreaterThan(2 * slipped.byClockHour[8]!.areaMm2);
  });

  it("has a negative gap where the opening lies inside the stoma, and tells how much stoma is covered", () => {
    const slipped = exposedSkin({ stoma: round(28), opening: round(30), offsetMm: [0, 3] });
    expect(slipped.maxGapMm).toBeCloseTo(4, 3);
    expect(slipped.minGapMm).toBeCloseTo(-2, 3);
    expect(slipped.byClockHour[5]!.maxGapMm).toBeLessThan(0);
    expect(slipped.overlapMm2).toBeGreaterThan(0);
    const difference = slipped.exposedSkinMm2 - slipped.overlapMm2;
    expect(difference).toBeCloseTo(Math.PI * (15 ** 2 - 14 ** 2), 0);
  });

  it("of an opening smaller than the stoma is none at all, the gap negative all round", () => {
    const tight = exposedSkin({ stoma: round(28), opening: round(26) });
    expect(tight.exposedSkinMm2).toBeCloseTo(0, 4);
    expect(tight.maxGapMm).toBeCloseTo(-1, 3);
    expect(tight.overlapMm2).toBeCloseTo(Math.PI * (14 ** 2 - 13 ** 2), 0);
  });

  it("measures the gap in the shortest direction, not along a ray from the centre", () => {
    // Beside a long thin stoma the ray to a far corner is long, the way to the stoma short.
    const stoma: Outline = [
      [-20, -2],
      [20, -2],
      [20, 2],
      [-20, 2],
    ];
    const opening: Outline = [
      [-22, -4],
      [22, -4],
      [22, 4],
      [-22, 4],
    ];
    const skin = exposedSkin({ stoma: { outline: stoma }, opening: { outline: opening } });
    expect(skin.minGapMm).toBe(2);
    expect(skin.maxGapMm).toBeCloseTo(Math.hypot(2, 2), 9);
  });

  it("finds a gap that is widest in the middle of a straight edge", () => {
    const stoma: Outline = [
      [-10, -5],
      [0, 0],
      [10, -5],
      [10, 5],
      [-10, 5],
    ];
    const opening: Outline = [
      [-12, -8],
      [12, -8],
      [12, 8],
      [-12, 8],
    ];
    const skin = exposedSkin({ stoma: { outline: stoma }, opening: { outline: opening } });
    const boundary = boundaryOf(outlineOf({ outline: stoma }));
    const along = Array.from({ length: 4801 }, (_, at) => boundary.distanceMm(-12 + at / 200, -8));
    expect(skin.byClockHour[5]!.maxGapMm).toBeCloseTo(Math.max(...along.slice(1800, 3000)), 2);
  });

  it("says nothing of an hour that the opening's edge does not reach", () => {
    const apart = exposedSkin({ stoma: round(10), opening: round(10), offsetMm: [20, 0] });
    expect(apart.byClockHour[8]).toEqual({ hour: 9, areaMm2: 0, maxGapMm: null, minGapMm: null });
    expect(apart.byClockHour[2]!.maxGapMm).toBeCloseTo(20, 3);
    expect(apart.minGapMm).toBeCloseTo(10, 3);
    expect(apart.overlapMm2).toBeCloseTo(Math.PI * 25, 1);
  });

  const size = fc.double({ min: 10, max: 50, noNaN: true });
  const shift = fc.double({ min: -8, max: 8, noNaN: true });

  it("adds up over the hours, and its balance with the covered stoma is the difference of the two areas", () => {
    fc.assert(
      fc.property(size, size, size, shift, shift, (lengthMm, widthMm, diameterMm, dx, dy) => {
        const [stoma, opening] = [ovalOf(lengthMm, widthMm, 30), round(diameterMm)];
        const skin = exposedSkin({ stoma, opening, offsetMm: [dx, dy] });
        const sum = skin.byClockHour.reduce((total, { areaMm2 }) => total + areaMm2, 0);
        expect(sum).toBeCloseTo(skin.exposedSkinMm2, 8);
        const areas = (outline: Outline) => exposedSkin({ stoma: round(1), opening: { outline } });
        const larger = areas(outlineOf(opening)).exposedSkinMm2 - areas(outlineOf(opening)).overlapMm2;
        const smaller = areas(outlineOf(stoma)).exposedSkinMm2 - areas(outlineOf(stoma)).overlapMm2;
        expect(skin.exposedSkinMm2 - skin.overlapMm2).toBeCloseTo(larger - smaller, 2);
      }),
      { numRuns: 40 },
    );
  });

  it("has its greatest and least gap where walking round the opening finds them", () => {
    fc.assert(
      fc.property(size, size, size, shift, shift, (lengthMm, widthMm, diameterMm, dx, dy) => {
        const stoma = ovalOf(lengthMm, widthMm, 30);
        const { maxGapMm, minGapMm, byClockHour } = exposedSkin({
          stoma,
          opening: round(diameterMm),
          offsetMm: [dx, dy],
        });
        const boundary = boundaryOf(outlineOf(stoma));
        const placed = moved(outlineOf(round(diameterMm)), [dx, dy]);
        const walked = placed.flatMap((a, at) => {
          const b = placed[(at + 1) % placed.length]!;
          return [0, 0.25, 0.5, 0.75].map((s) =>
            boundary.signedGapMm(a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])),
          );
        });
        const [most, least] = [Math.max(...walked), Math.min(...walked)];
        expect(maxGapMm).toBeGreaterThan(most - 2e-4);
        expect(maxGapMm).toBeLessThan(most + 0.1);
        expect(minGapMm).toBeLessThan(least + 2e-4);
        expect(minGapMm).toBeGreaterThan(least - 0.1);
        expect(Math.max(...byClockHour.map((hour) => hour.maxGapMm ?? -Infinity))).toBe(maxGapMm);
      }),
      { numRuns: 40 },
    );
  });

  it("names the shape that is no outline", () => {
    const bow = {
      outline: [
        [0, 0],
        [10, 10],
        [10, 0],
        [0, 10],
      ] as Point[],
    };
    expect(() => exposedSkin({ stoma: round(20), opening: bow })).toThrow(
      /^opening\.outline: crosses itself/,
    );
    expect(() => exposedSkin({ stoma: bow, opening: round(20) })).toThrow(InputError);
  });
});

describe("the skin when the opening may be laid off centre", () => {
  it("is what it is with no placement error", () => {
    const skin = exposedSkin({ stoma: round(28), opening: round(36), placementSdMm: 0 });
    expect(skin.expected!.maxGapMm).toBeCloseTo(skin.maxGapMm, 9);
    expect(skin.expected!.exposedSkinMm2).toBeCloseTo(skin.exposedSkinMm2, 6);
  });

  it("has its greatest gap wider by sd x sqrt(pi/2) on average round a round stoma", () => {
    // The mean distance off centre of a two-dimensional normal error (Rayleigh)
    for (const placementSdMm of [0.5, 1]) {
      const { expected } = exposedSkin({ stoma: round(28), opening: round(36), placementSdMm });
      expect(expected!.maxGapMm).toBeCloseTo(4 + placementSdMm * Math.sqrt(Math.PI / 2), 3);
      expect(expected!.minGapMm).toBeCloseTo(4 - placementSdMm * Math.sqrt(Math.PI / 2), 3);
    }
  });

  it("has as much more skin as stoma covered: the opening's own area does not change", () => {
    const skin = exposedSkin({ stoma: round(28), opening: round(30), placementSdMm: 1.5 });
    expect(skin.expected!.exposedSkinMm2).toBeGreaterThan(skin.exposedSkinMm2);
    const more = skin.expected!.exposedSkinMm2 - skin.exposedSkinMm2;
    expect(more).toBeCloseTo(skin.expected!.overlapMm2, 3);
  });

  it("agrees with the mean over a fine grid of placements", () => {
    const [stoma, opening, sdMm] = [ovalOf(30, 24), round(32), 1];
    const { expected } = exposedSkin({ stoma, opening, placementSdMm: sdMm });
    let [weights, gaps, areas] = [0, 0, 0];
    for (let dx = -4; dx <= 4; dx += 0.5) {
      for (let dy = -4; dy <= 4; dy += 0.5) {
        const weight = Math.exp(-(dx * dx + dy * dy) / (2 * sdMm * sdMm));
        const skin = exposedSkin({ stoma, opening, offsetMm: [dx, dy] });
        weights += weight;
        gaps += weight * skin.maxGapMm;
        areas += weight * skin.exposedSkinMm2;
      }
    }
    expect(Math.abs(expected!.maxGapMm - gaps / weights)).toBeLessThan(0.02);
    expect(Math.abs(expected!.exposedSkinMm2 / (areas / weights) - 1)).toBeLessThan(0.002);
  });
});

describe("exposed skin as a topic", () => {
  it("runs its own example", () => {
    const skin = exposedTopic.run(parseInput(exposedTopic.schema, exposedTopic.example));
    expect(skin.maxGapMm).toBeCloseTo(5.5, 3);
  });
});
