import { describe, expect, it } from "vitest";
import type { Point } from "../outline/index.ts";
import { afterSurgery, type SitedPerson } from "./index.ts";

/** A crease 30 mm below the stoma: at its 6 o'clock. */
function person(more: Partial<SitedPerson> = {}): SitedPerson {
  const line: Point[] = [
    [-200, -90],
    [200, -90],
  ];
  return {
    id: "a",
    landmarks: [{ kind: "crease", posture: "sitting", shape: { line } }],
    marks: [
      { rank: 1, at: [-45, -56] },
      { rank: 2, at: [-45, 70] },
    ],
    stomaAt: [-42, -60],
    leakHours: [6, 6, 5, 12],
    ...more,
  };
}

describe("planned against actual place", () => {
  it("is the distance from the nearest mark, which need not be the first choice", () => {
    expect(afterSurgery([person()]).people[0]!.planned).toEqual({
      rank: 1,
      apartMm: 5,
      leftMm: 3,
      headMm: -4,
    });
    expect(afterSurgery([person({ stomaAt: [-45, 60] })]).people[0]!.planned!.rank).toBe(2);
  });

  it("over a clinic gives the median, the largest and how often the first choice was taken", () => {
    const people = [
      person(),
      person({ stomaAt: [-45, 60] }),
      person({ stomaAt: [-45, -76] }),
      person({ stomaAt: null }),
    ];
    expect(afterSurgery(people).apart).toEqual({ people: 3, medianMm: 10, largestMm: 20, atFirstRank: 2 });
  });

  it("is unknown, not zero, where no stoma is on the map", () => {
    const { apart, people } = afterSurgery([person({ stomaAt: null })]);
    expect(people[0]).toMatchObject({ planned: null, crease: null, leaksByHoursApart: [] });
    expect(apart).toMatchObject({ people: 0, medianMm: null, largestMm: null });
  });
});

describe("leaks against the nearest crease", () => {
  it("are counted by the clock hours between them", () => {
    const { people, leaks } = afterSurgery([person()]);
    expect(people[0]!.crease).toEqual({ awayMm: 30, hour: 6 });
    expect(leaks.map((bin) => bin.leaks)).toEqual([2, 1, 0, 0, 0, 0, 1]);
    expect(leaks[0]!.share).toBe(0.5);
  });

  it("spread evenly round the clock fall into the bins by the share that is shown beside them", () => {
    const everyHour = Array.from({ length: 12 }, (_, at) => at + 1);
    for (const { share, evenShare } of afterSurgery([person({ leakHours: everyHour })]).leaks) {
      expect(share).toBeCloseTo(evenShare, 12);
    }
  });

  it("have no share where there are none", () => {
    expect(afterSurgery([person({ leakHours: [] })]).leaks.every(({ share }) => share === null)).toBe(true);
  });
});
