import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../fault.ts";
import type { Point } from "../outline/index.ts";
import { defaultProtocol, protocolWith } from "../protocol/index.ts";
import {
  bestPlaces,
  type Landmark,
  largestClearance,
  placeAt,
  prepareSiting,
  regionMm2,
  regionOf,
  type SitingQuestion,
  siting,
} from "./index.ts";

/** Right and left muscle of an invented adult, and hip bones 250 mm apart. */
const muscle: Landmark[] = [-1, 1].map((side) => ({
  kind: "muscle",
  shape: {
    area: (
      [
        [8, -130],
        [46, -130],
        [72, -40],
        [76, 40],
        [74, 140],
        [8, 140],
      ] as Point[]
    ).map(([x, y]) => [side * x, y]),
  },
}));
const hips: Landmark[] = [
  { kind: "hipBone", label: "right hip bone", shape: { point: [-125, -78] } },
  { kind: "hipBone", label: "left hip bone", shape: { point: [125, -78] } },
];
const adult = [...muscle, ...hips];

function scar(x: number, more: Partial<Landmark> = {}): Landmark {
  return {
    kind: "scar",
    shape: {
      line: [
        [x, -200],
        [x, 200],
      ],
    },
    ...more,
  };
}

function mapOf(landmarks: Landmark[], more: Partial<SitingQuestion> = {}) {
  return prepareSiting({ landmarks, stomaType: "ileostomy", ...more }, defaultProtocol);
}

describe("a site held to the guideline", () => {
  // Stoma site marking procedure quick reference (WOCN): 2 inches; taken as 50 mm, as it is usually said.
  it.each([
    [49, ["scar"]],
    [50, []],
    [51, []],
  ])("%d mm from a scar complains of %j", (mm, complaints) => {
    const place = placeAt(mapOf([...adult, scar(-42 - mm)]), [-42, -60]);
    expect(place.complaints.map(({ to }) => to)).toEqual(complaints);
  });

  it.each([
    ["navel", { point: [0, 0] }],
    [
      "crease",
      {
        line: [
          [-300, 0],
          [300, 0],
        ],
      },
    ],
    [
      "fold",
      {
        line: [
          [-300, 0],
          [300, 0],
        ],
      },
    ],
    ["bone", { point: [0, 0] }],
  ] as [Landmark["kind"], Landmark["shape"]][])(
    "keeps 50 mm from a %s too, at both sides of the limit",
    (kind, shape) => {
      const siting = mapOf([
        ...adult,
        { kind, shape, label: "it" },
        ...(kind === "navel" ? [] : [{ kind: "navel", shape: { point: [0, 900] } } as const]),
      ]);
      const complains = (y: number) => placeAt(siting, [0, y]).complaints.some(({ to }) => to === "it");
      expect([complains(-49.99), complains(-50), complains(-50.01)]).toEqual([true, false, false]);
    },
  );

  it("keeps a share of the body's width from the midline: 30 mm where hip bones lie 250 mm apart", () => {
    const limit = (landmarks: Landmark[]) =>
      mapOf(landmarks).rules.find(({ kind }) => kind === "midline")!.limitMm;
    expect(limit(adult)).toBeCloseTo(30, 9);
    expect(limit(muscle)).toBeCloseTo(0.4 * 76, 9);
    expect(
      limit(
        hips.map((hip) => ({ ...hip, shape: { point: [hip.label === "left hip bone" ? 300 : -300, -80] } })),
      ),
    ).toBe(50);
  });

  it("has a place for an infant in the middle of the muscle, which 50 mm from the midline would refuse", () => {
    const small = adult.map(
      (landmark): Landmark => ({
        ...landmark,
        shape:
          "area" in landmark.shape
            ? { area: landmark.shape.area.map(([x, y]) => [x * 0.3, y * 0.3]) }
            : { point: [Math.sign((landmark.shape as { point: Point }).point[0]) * 37.5, -23] },
      }),
    );
    const { candidates, notes } = siting({ landmarks: small, stomaType: "ileostomy" });
    expect(candidates[0]!.acrossMuscle).toBeCloseTo(0.5, 1);
    expect(notes.map(({ code }) => code)).toContain("smallBody");
    expect(siting({ landmarks: small, stomaType: "ileostomy", limits: { midline: 50 } }).candidates).toEqual(
      [],
    );
  });

  it("takes a clearance of the caller's for what the guideline names together, and leaves the others", () => {
    const { limits } = siting({
      landmarks: [
        ...adult,
        scar(-100),
        {
          kind: "beltLine",
          shape: {
            line: [
              [-99, 0],
              [99, 0],
            ],
          },
        },
      ],
      stomaType: "ileostomy",
      clearanceMm: 35,
    });
    const of = (kind: string) => limits.find((limit) => limit.kind === kind)!.limitMm;
    expect([of("scar"), of("navel"), of("hipBone"), of("beltLine"), of("midline")]).toEqual([
      35, 35, 35, 25, 30,
    ]);
  });

  it("follows the clinic's own protocol", () => {
    const strict = prepareSiting(
      { landmarks: [...adult, scar(-100)], stomaType: "ileostomy" },
      protocolWith({ siteScarMm: 60 }),
    );
    expect(placeAt(strict, [-42, -60]).complaints.map(({ to, limitMm }) => [to, limitMm])).toEqual([
      ["scar", 60],
    ]);
  });
});

describe("the best places", () => {
  it("lie where the procedure asks: ileostomy right, colostomy left, upper on a large abdomen", () => {
    const first = (more: Partial<SitingQuestion>) => {
      const siting = mapOf(adult, more);
      return placeAt(siting, bestPlaces(siting, 1)[0]!).quadrant;
    };
    expect(first({ stomaType: "ileostomy" })).toBe("rightLower");
    expect(first({ stomaType: "urostomy" })).toBe("rightLower");
    expect(first({ stomaType: "colostomy" })).toBe("leftLower");
    expect(first({ stomaType: "colostomy", largeAbdomen: true })).toBe("leftUpper");
    expect(first({ stomaType: "colostomy", quadrant: "rightUpper" })).toBe("rightUpper");
  });

  it("lie in the middle of the muscle where every limit allows it, and beside it where none does", () => {
    const inMiddle = siting({ landmarks: adult, stomaType: "ileostomy" });
    expect(Math.abs(inMiddle.candidates[0]!.acrossMuscle! - 0.5)).toBeLessThanOrEqual(0.05 + 1e-9);
    const beside = siting({
      landmarks: [...adult, scar(-5)],
      stomaType: "ileostomy",
      quadrant: "rightLower",
    });
    expect(beside.candidates[0]!.acrossMuscle!).toBeGreaterThan(0.6);
    expect(beside.notes.map(({ code }) => code)).toContain("notMidMuscle");
  });

  it("are ranked, keep every limit and lie 40 mm apart or more", () => {
    const { candidates } = siting({ landmarks: adult, stomaType: "ileostomy" });
    expect(candidates.map(({ rank }) => rank)).toEqual([1, 2, 3]);
    for (const { complaints } of candidates) expect(complaints).toEqual([]);
    for (const a of candidates) {
      for (const b of candidates) {
        if (a !== b) expect(Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1])).toBeGreaterThanOrEqual(40);
      }
    }
  });

  it("no place of a fine grid has more clearance than the largest that was found", () => {
    const mark = fc.record({
      x: fc.double({ min: -90, max: 90, noNaN: true }),
      y: fc.double({ min: -140, max: 140, noNaN: true }),
      kind: fc.constantFrom("scar", "crease", "beltLine", "brace" as const),
    });
    fc.assert(
      fc.property(fc.array(mark, { maxLength: 6 }), (marks) => {
        const map = mapOf(
          [...adult, ...marks.map(({ x, y, kind }): Landmark => ({ kind, shape: { point: [x, y] } }))],
          { clearanceMm: 20 },
        );
        const found = largestClearance(map)?.slackMm ?? 0;
        let most = Number.NEGATIVE_INFINITY;
        for (let x = -76; x <= 76; x += 2)
          for (let y = -130; y <= 140; y += 2) most = Math.max(most, placeSlack(map, [x, y]));
        expect(most).toBeLessThanOrEqual(found + 0.05);
      }),
      { numRuns: 15, seed: 7 },
    );
  });

  it("give a second stoma another level, away from the belt that holds the first", () => {
    const first = bestPlaces(mapOf(adult, { barrierDiameterMm: 80 }), 1)[0]!;
    const other: Landmark = { kind: "otherStoma", shape: { point: first }, barrierDiameterMm: 80 };
    const { candidates } = siting({
      landmarks: [...adult, other],
      stomaType: "colostomy",
      barrierDiameterMm: 80,
    });
    expect(candidates[0]!.quadrant.startsWith("left")).toBe(true);
    for (const { at } of candidates) expect(Math.abs(at[1] - first[1])).toBeGreaterThanOrEqual(50);
  });
});

function placeSlack(map: ReturnType<typeof mapOf>, at: Point): number {
  return Math.min(...map.rules.map(({ distanceMm, limitMm }) => distanceMm(...at) - limitMm));
}

describe("postures", () => {
  const crease: Landmark = {
    kind: "crease",
    posture: "sitting",
    shape: {
      line: [
        [-200, -70],
        [200, -70],
      ],
    },
  };

  it("each takes its own part: without the sitting crease the region is larger by what it says", () => {
    const { takenByPosture, regionMm2: left } = siting({
      landmarks: [...adult, crease],
      stomaType: "ileostomy",
    });
    const withoutCrease = regionMm2(regionOf(mapOf(adult)));
    expect(takenByPosture.map(({ posture }) => posture)).toEqual(["sitting"]);
    expect(takenByPosture[0]!.takenMm2).toBeCloseTo(withoutCrease - left, 6);
    expect(takenByPosture[0]!.takenMm2).toBeGreaterThan(1000);
  });

  it("a place that is good lying may be bad sitting, and says in which", () => {
    const { postures, complaints } = placeAt(
      mapOf([...adult, crease, scar(-200, { posture: "lying" })]),
      [-42, -60],
    );
    expect(postures.lying!.slackMm).toBeGreaterThan(0);
    expect(postures.sitting).toEqual({ limiting: "crease", slackMm: -40 });
    expect(complaints.map(({ to, posture }) => [to, posture])).toEqual([["crease", "sitting"]]);
  });

  it("what the person does not see sitting is below the line that was drawn", () => {
    const sight: Landmark = {
      kind: "sightLimit",
      posture: "sitting",
      shape: {
        line: [
          [-150, -60],
          [150, -60],
        ],
      },
    };
    const map = mapOf([...adult, sight]);
    expect(placeAt(map, [-42, -61]).complaints.map(({ to }) => to)).toEqual(["what is out of sight"]);
    expect(placeAt(map, [-42, -59]).complaints).toEqual([]);
  });
});

describe("where nothing keeps every limit", () => {
  const walls = [
    scar(-20, { label: "scar A" }),
    scar(-90, { label: "scar B" }),
    scar(-400, { label: "scar C" }),
  ];
  const answer = siting({ landmarks: [...adult, ...walls], stomaType: "ileostomy", quadrant: "rightLower" });

  it("names the fewest landmarks that conflict, and by how much", () => {
    expect(answer.conflict!.landmarks.map(({ to }) => to).sort()).toEqual(["scar A", "scar B"]);
    // 70 mm lie between them and 100 are asked for: 15 mm short on each side
    expect(answer.conflict!.shortMm).toBeCloseTo(15, 1);
    expect(answer.conflict!.allShortMm).toBeCloseTo(15, 1);
  });

  it("every landmark that it names is needed: without any one of them a place is found", () => {
    for (const name of ["scar A", "scar B"]) {
      const without = [...adult, ...walls.filter(({ label }) => label !== name)];
      expect(
        siting({ landmarks: without, stomaType: "ileostomy", quadrant: "rightLower" }).conflict,
      ).toBeNull();
    }
  });

  it("offers the least bad place: half way between the two scars, every other limit kept", () => {
    const [least] = answer.conflict!.leastBad;
    expect(least!.at[0]).toBeCloseTo(-55, 0);
    expect([...new Set(least!.complaints.map(({ to }) => to))].sort()).toEqual(["scar A", "scar B"]);
  });

  it("gives up the lesser limit by the protocol's order, not the nearer one", () => {
    const creases: Landmark = { ...scar(-20), kind: "crease" };
    const landmarks = [...adult, creases, scar(-90)];
    const [byDefault] = siting({ landmarks, stomaType: "ileostomy", quadrant: "rightLower" }).conflict!
      .leastBad;
    expect(byDefault!.complaints.map(({ kind }) => kind)).toEqual(["scar"]);
    const otherOrder = protocolWith({ giveUpScar: 20 });
    const [other] = siting({ landmarks, stomaType: "ileostomy", quadrant: "rightLower" }, otherOrder)
      .conflict!.leastBad;
    expect(other!.complaints.map(({ kind }) => kind)).toContain("crease");
    expect(other!.complaints.map(({ kind }) => kind)).not.toContain("scar");
  });

  it("still finds the other side, and says that it is not the wanted one", () => {
    expect(answer.candidates[0]!.quadrant).toBe("leftLower");
    expect(answer.notes.map(({ code }) => code)).toContain("notInWantedQuadrant");
  });
});

describe("the place in words", () => {
  it("is found again from navel and hip bone by two tapes and the side", () => {
    const { finding } = placeAt(mapOf(adult), [-45, -60]);
    expect(finding.words).toBe(
      "Right lower quadrant: 45 mm to the person’s right of the navel and 60 mm below it; by tape 75 mm from the navel and 82 mm from the right hip bone, on the foot side of the line between them.",
    );
    expect(finding.fromNavelMm).toBe(75);
    expect(finding.fromHipBoneMm).toBeCloseTo(Math.hypot(80, 18), 12);
  });
});

describe("the skin under the barrier", () => {
  it("is even as far as the nearest unevenness on both sides, and what crosses it is measured", () => {
    const map = mapOf([...adult, scar(-75)], { barrierDiameterMm: 100 });
    const { barrier } = placeAt(map, [-45, -60]);
    expect(barrier.flatAcrossMm).toBeCloseTo(60, 12);
    // a line 30 mm from the middle of a circle of 50: a chord of 80 mm, 20 mm in from the edge
    expect(barrier.crossing).toEqual([
      { to: "scar", kind: "scar", posture: null, depthMm: 20, lengthMm: 80, areaMm2: null },
    ]);
  });

  it("says so where it is little", () => {
    const { notes } = siting({ landmarks: [...adult, scar(-70)], stomaType: "ileostomy", clearanceMm: 15 });
    expect(notes.map(({ code }) => code)).not.toContain("littleFlatSkin");
    const tight = siting({
      landmarks: [...adult, scar(-62), scar(-20)],
      stomaType: "ileostomy",
      clearanceMm: 10,
      quadrant: "rightLower",
    });
    expect(tight.notes.find(({ code }) => code === "littleFlatSkin")?.params.limitMm).toBe(50);
  });
});

it("refuses a map that encloses nothing", () => {
  expect(() => siting({ landmarks: [], stomaType: "ileostomy" })).toThrow(InputError);
});

it("says that no muscle was marked, and works with the landmarks alone", () => {
  const { notes, candidates } = siting({
    landmarks: [
      ...hips,
      { kind: "bone", shape: { point: [0, -170] } },
      { kind: "bone", shape: { point: [0, 170] } },
    ],
    stomaType: "ileostomy",
  });
  expect(notes.map(({ code }) => code)).toContain("muscleNotMarked");
  expect(candidates.length).toBeGreaterThan(0);
});
