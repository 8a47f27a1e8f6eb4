import { describe, expect, it } from "vitest";
import { InputError } from "../fault.ts";
import type { Point } from "../outline/index.ts";
import { defaultProtocol } from "../protocol/index.ts";
import { bodyMap, fromSegment, pointsOf, questionOf } from "./index.ts";

const readings = { navelToPubisMm: 170, navelToRibMarginMm: 110, hipToHipMm: 250, waistMm: 880 };

function placed(label: string, more = {}) {
  const { landmarks } = bodyMap({ ...readings, ...more }, defaultProtocol);
  return pointsOf(landmarks.find((landmark) => landmark.label === label)!.shape);
}

describe("a body map from tape readings", () => {
  it("has every reading at its own length again", () => {
    const [right, left] = [placed("right hip bone")[0]!, placed("left hip bone")[0]!];
    expect(left[0] - right[0]).toBe(250);
    expect(placed("pubis")).toEqual([[0, -170]]);
    for (const side of ["right", "left"]) {
      const [top, end] = placed(`${side} rib margin`) as [Point, Point];
      expect(fromSegment(top, end)(0, 0)).toBeCloseTo(110, 9);
    }
  });

  it("puts hip bones where a tape from the navel reaches them, and without it at the protocol's share", () => {
    const [x, y] = placed("left hip bone", { navelToHipMm: 145 })[0]!;
    expect(Math.hypot(x, y)).toBeCloseTo(145, 9);
    expect(y).toBeLessThan(0);
    expect(placed("left hip bone")[0]![1]).toBeCloseTo(-0.45 * 170, 9);
  });

  it("refuses a tape that cannot reach the hip bone", () => {
    expect(() => placed("pubis", { navelToHipMm: 100 })).toThrow(InputError);
  });
});

describe("the document", () => {
  it("takes landmarks by what they are, in all postures or by posture, bare or with a label", () => {
    const { landmarks } = questionOf(
      {
        stomaType: "ileostomy",
        landmarks: {
          scars: [
            [
              [0, 0],
              [0, 50],
            ],
            { label: "old drain", point: [60, -40] },
          ],
          creases: {
            sitting: [
              [
                [-90, -60],
                [90, -60],
              ],
            ],
          },
          visibleLimit: {
            standing: [
              [-90, -80],
              [90, -80],
            ],
          },
          hipBones: { left: [125, -78] },
        },
      },
      defaultProtocol,
    );
    expect(landmarks.map(({ kind, posture, label }) => [kind, posture, label])).toEqual([
      ["scar", undefined, undefined],
      ["scar", undefined, "old drain"],
      ["crease", "sitting", undefined],
      ["sightLimit", "standing", undefined],
      ["hipBone", undefined, "left hip bone"],
    ]);
  });

  it("lays what was marked in a posture's own picture onto the map, and nothing else", () => {
    const shift = (at: Point): Point => [at[0] + 12, at[1] - 30];
    const shared: Point[] = [
      [0, 0],
      [100, 0],
      [0, 100],
    ];
    const { landmarks } = questionOf(
      {
        stomaType: "ileostomy",
        landmarks: { creases: { sitting: [{ point: [10, 20] }], lying: [{ point: [10, 20] }] } },
        registrations: {
          sitting: { method: "similarity", marks: shared.map((seen) => ({ seen, onMap: shift(seen) })) },
        },
      },
      defaultProtocol,
    );
    const at = (posture: string) => pointsOf(landmarks.find((mark) => mark.posture === posture)!.shape)[0]!;
    expect(at("sitting")[0]).toBeCloseTo(22, 9);
    expect(at("sitting")[1]).toBeCloseTo(-10, 9);
    expect(at("lying")).toEqual([10, 20]);
  });

  it("names the area that is no outline", () => {
    const crossed: Point[] = [
      [0, 0],
      [50, 50],
      [50, 0],
      [0, 50],
    ];
    const document = { stomaType: "ileostomy", landmarks: { muscleBorder: [crossed] } } as const;
    expect(() => questionOf(document, defaultProtocol)).toThrow(/^landmarks\.muscleBorder\.0/);
  });
});
