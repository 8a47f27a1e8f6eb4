import { v4, v7 } from "uuid";
import { describe, expect, it } from "vitest";
import {
  change,
  clinicDetails,
  day,
  drainable,
  entry,
  instant,
  round,
  samplePerson,
} from "../../../test/record/samples.ts";
import { protocolDefinition, protocolKeys } from "../../domain/protocol/index.ts";
import { checkEntry, type Entry, kindNames, kinds } from "./index.ts";

const { about, personId } = samplePerson();
const disc = (diameterMm: unknown) => ({ guide: { shape: "round", diameterMm } });

/** One good entry of each kind. */
const good: Entry[] = [
  entry("clinic", clinicDetails),
  entry("protocolSet", { key: "maxGapMm", value: 3 }, { reason: "the clinic's own rule" }),
  entry("person", { name: "Edda Voss", birthDate: "1951-04-03" }, { personId }),
  entry("stoma", { type: "ileostomy", construction: "loop", side: "right" }, about),
  entry("measured", round(32), about),
  entry("cut", { opening: { guide: { shape: "round", diameterMm: 36 } }, how: "sheet" }, about),
  entry("fitted", drainable, about),
  entry("changed", change("leakPastEdge", { leakHours: [3, 4] }), {
    ...about,
    at: instant("2026-11-20T08:00:00Z"),
  }),
  entry("event", { what: "hernia" }, { personId }),
  entry("noted", { text: "Called; all well." }, about),
  entry(
    "skin",
    {
      about: { guide: { shape: "round", diameterMm: 32 } },
      findings: [
        { what: "surfaceGone", place: { hours: { from: 5, to: 7 }, reachMm: { from: 0, to: 6 } } },
        {
          what: "bleeding",
          place: {
            outline: [
              [20, 0],
              [24, 0],
              [22, 5],
            ],
          },
        },
      ],
      feels: ["itch"],
    },
    about,
  ),
  entry(
    "consented",
    { about: "photographs", purposes: ["keep"], given: true, how: "spoken", by: "person" },
    { personId },
  ),
  entry(
    "sited",
    {
      what: "marked",
      stomaType: "ileostomy",
      landmarks: [
        { kind: "hipBone", label: "right hip bone", shape: { point: [-125, -78] } },
        {
          kind: "crease",
          posture: "sitting",
          shape: {
            line: [
              [-90, -110],
              [90, -110],
            ],
          },
        },
      ],
      postures: ["lying", "sitting"],
      marks: [{ rank: 1, at: [-45, -60], drawnAs: "cross" }],
      consent: { given: true, how: "spoken", by: "person" },
    },
    { personId },
  ),
  entry(
    "advised",
    {
      what: "cuttingSheet",
      sheetNumber: 1,
      measuredId: v4(),
      clearanceMm: 2,
      from: [v4()],
      protocolVersion: 0,
      programVersion: "0.0.1",
      words: ["Hole across 36.0 mm."],
      paper: "A4",
    },
    about,
  ),
];

const goodOf = (kind: Entry["kind"]) => good.find((one) => one.kind === kind)!;

/** A good entry with one value put at a path. */
function withValue(kind: Entry["kind"], path: string, value: unknown): unknown {
  const copy = structuredClone(goodOf(kind)) as unknown as Record<string, unknown>;
  const steps = path.split(".");
  let place = copy;
  for (const step of steps.slice(0, -1)) place = place[step] as Record<string, unknown>;
  place[steps.at(-1)!] = value;
  return copy;
}

describe("an entry", () => {
  it("of every kind is taken as it is", () => {
    expect(good.map(({ kind }) => kind)).toEqual(kindNames);
    for (const one of good) expect(checkEntry(one)).toEqual({ entry: one });
  });

  it("tells every fault at once, with its path", () => {
    const { faults } = checkEntry({
      ...goodOf("measured"),
      personId: null,
      body: { method: "guess", shape: disc(0) },
    });
    expect(faults?.map(({ path }) => path)).toEqual([
      "personId",
      "body.method",
      "body.shape.guide.diameterMm",
    ]);
  });

  it.each([
    ["id", "1234"],
    ["id", v4()],
    ["clinicId", null],
    ["personId", "x"],
    ["kind", "measuredTwice"],
    ["kind", "__proto__"],
    ["schemaVersion", 0],
    ["schemaVersion", 1.5],
    ["at", "2026-11-20"],
    ["at", { instant: "2026-11-20T08:00:00+01:00", zone: "Europe/London" }],
    ["at", { instant: "2026-11-20T08:00:00Z" }],
    ["at", { instant: "2026-11-20T08:00:00Z", zone: "Europe/Nowhere" }],
    ["at", { date: "2026-02-30", precision: "day" }],
    ["at", { date: "2026-11-20", precision: "hour" }],
    ["recordedAt", "yesterday"],
    ["by", { id: "x", name: "Ines" }],
    ["by", null],
    ["reportedBy", ""],
    ["corrects", { id: v7(), as: "delete" }],
    ["reason", "x".repeat(1001)],
    ["mood", "fine"],
  ])("whose %s is %j is refused", (path, value) => {
    const { faults } = checkEntry({ ...goodOf("measured"), [path]: value });
    expect(faults?.[0]?.path.split(".")[0]).toBe(path);
  });

  it.each([null, undefined, 7, "entry", [], [good[0]]])("that is no object (%j) is refused", (input) => {
    expect(checkEntry(input).faults?.length).toBeGreaterThan(0);
  });

  it("of a newer program is refused by its version, not misread", () => {
    expect(checkEntry({ ...goodOf("measured"), schemaVersion: 99 }).faults).toEqual([
      {
        path: "schemaVersion",
        problem: "is newer than this program reads",
        got: 99,
        expected: "at most 1 for measured",
      },
    ]);
  });

  it("that corrects another says why, and so does a changed protocol value", () => {
    const { reason: _why, ...set } = goodOf("protocolSet");
    expect(checkEntry(set).faults).toMatchObject([{ path: "reason", problem: "is missing" }]);
    const correction = { ...goodOf("measured"), corrects: { id: v7(), as: "retract" } };
    expect(checkEntry(correction).faults).toMatchObject([{ path: "reason", problem: "is missing" }]);
    expect(checkEntry({ ...correction, reason: "misread" }).faults).toBeUndefined();
  });

  it.each([
    ["clinic", { personId }, "personId"],
    ["person", { personId: null }, "personId"],
    ["person", { stomaId: about.stomaId }, "stomaId"],
    ["measured", { stomaId: null }, "stomaId"],
    ["event", { personId: null }, "personId"],
  ] as const)("of kind %s with %j is about the wrong thing", (kind, ids, path) => {
    expect(checkEntry({ ...goodOf(kind), ...ids }).faults).toMatchObject([{ path }]);
  });
});

describe("a measurement", () => {
  it.each([
    ["shape", disc(120)],
    ["shape", disc(1)],
    ["heightMm", -12],
    ["stepMm", 3.175],
  ])("with %s %j is taken: unlikely sizes are asked about, not refused", (field, value) => {
    expect(checkEntry(withValue("measured", `body.${field}`, value)).faults).toBeUndefined();
  });

  it.each([
    ["shape", disc(500)],
    ["shape", disc(0)],
    ["shape", disc(-30)],
    ["shape", disc("32")],
    ["shape", disc(null)],
    ["shape", disc(Number.NaN)],
    ["shape", disc(Number.POSITIVE_INFINITY)],
    ["shape", { guide: { shape: "square", sideMm: 30 } }],
    ["shape", { guide: { shape: "oval", lengthMm: 40, widthMm: 30, tiltDeg: 400 } }],
    ["shape", { guide: { shape: "oval", lengthMm: 40 } }],
    [
      "shape",
      {
        outline: [
          [0, 0],
          [10, 0],
        ],
      },
    ],
    [
      "shape",
      {
        outline: [
          [0, 0],
          [10, 0],
          [0, 999],
        ],
      },
    ],
    [
      "shape",
      {
        outline: [
          [0, 0],
          [10, 0],
          [20, 0],
        ],
      },
    ],
    ["shape", null],
    ["heightMm", -41],
    ["heightMm", "20"],
    ["stepMm", 0],
    ["stepMm", 20],
    ["sdMm", -1],
    ["posture", "upside down"],
    ["note", "x".repeat(2001)],
    ["mood", 3],
  ])("with %s %j is refused", (field, value) => {
    const { faults } = checkEntry(withValue("measured", `body.${field}`, value));
    expect(faults?.[0]?.path).toMatch(new RegExp(`^body\\.${field}`));
  });

  it("whose outline crosses itself is refused, and the place is named", () => {
    const bow = {
      outline: [
        [0, 0],
        [20, 20],
        [20, 0],
        [0, 20],
      ],
    };
    const { faults } = checkEntry(withValue("measured", "body.shape", bow));
    expect(faults?.[0]?.problem).toContain("meet at (10, 10) mm");
  });

  it("of another method than the bench knows is refused", () => {
    expect(checkEntry(withValue("measured", "body.method", "guess")).faults?.[0]?.path).toBe("body.method");
  });
});

describe("each field of the other kinds", () => {
  it.each([
    ["clinic", "name", ""],
    ["clinic", "timeZone", "London"],
    ["clinic", "nursePhone", "1"],
    ["clinic", "paper", "A5"],
    ["clinic", "nurse", { name: "Ines" }],
    ["protocolSet", "key", "somethingElse"],
    ["protocolSet", "key", "toString"],
    ["protocolSet", "value", "3"],
    ["protocolSet", "value", 999],
    ["protocolSet", "value", -1],
    ["person", "name", "  "],
    ["person", "name", 5],
    ["person", "birthDate", "1951"],
    ["person", "birthDate", "1951-02-29"],
    ["person", "caredForBy", "nobody"],
    ["person", "interpreter", "yes"],
    ["stoma", "type", "gastrostomy"],
    ["stoma", "construction", "round"],
    ["stoma", "surgeryOn", "2026-10-20"],
    ["stoma", "surgeryOn", { date: "2026-10-20", precision: "hour" }],
    ["stoma", "side", "top"],
    ["cut", "opening", disc(300)],
    ["cut", "clearanceMm", -6],
    ["cut", "clearanceMm", "2"],
    ["cut", "how", "laser"],
    ["cut", "measuredId", "x"],
    ["fitted", "system", { name: "x" }],
    ["fitted", "system", { ...drainable.system, pieces: "three" }],
    ["fitted", "system", { ...drainable.system, maxOpeningMm: 500 }],
    ["fitted", "plannedIntervalDays", 0],
    ["fitted", "plannedIntervalDays", 30],
    ["changed", "what", "everything"],
    ["changed", "why", "leak"],
    ["changed", "leakHours", [0]],
    ["changed", "leakHours", [1.5]],
    ["changed", "leakHours", "3"],
    ["changed", "leakHours", Array.from({ length: 13 }, () => 1)],
    ["changed", "lastSoundAt", "2026-11-20"],
    ["changed", "systemName", ""],
    ["event", "what", "holiday"],
    ["noted", "text", ""],
    ["noted", "text", "x".repeat(10_001)],
    ["advised", "sheetNumber", 0],
    ["advised", "from", []],
    ["advised", "clearanceMm", -1],
    ["advised", "paper", "A5"],
  ] as const)("%s: %s %j is refused", (kind, field, value) => {
    const { faults } = checkEntry(withValue(kind, `body.${field}`, value));
    expect(faults?.[0]?.path).toMatch(new RegExp(`^body\\.${field}`));
  });

  it("a person needs a birth date or a record number: sheets carry two identifiers", () => {
    expect(checkEntry(withValue("person", "body", { name: "Edda Voss" })).faults).toMatchObject([
      { path: "body.birthDate", expected: "a birth date or a record number: sheets carry two identifiers" },
    ]);
    expect(
      checkEntry(withValue("person", "body", { name: "Edda Voss", identifier: "R-1" })).faults,
    ).toBeUndefined();
  });

  it.each(protocolKeys)("protocol value %s may be set to its limits and not beyond", (key) => {
    const { min, max } = protocolDefinition(key);
    const set = (value: number) => checkEntry(withValue("protocolSet", "body", { key, value })).faults;
    expect([set(min), set(max)]).toEqual([undefined, undefined]);
    expect(set(min - 0.001)).toMatchObject([{ path: "body.value" }]);
    expect(set(max + 0.001)).toMatchObject([{ path: "body.value" }]);
  });

  it("spaces round a name are taken off", () => {
    const checked = checkEntry(withValue("person", "body.name", "  Edda Voss "));
    expect(checked.entry?.body).toMatchObject({ name: "Edda Voss" });
  });
});

describe("upcasters", () => {
  it("lead from every released version of a kind to the one in use", () => {
    for (const [name, { version, upcasters }] of Object.entries(kinds)) {
      const from = Object.keys(upcasters)
        .map(Number)
        .sort((a, b) => a - b);
      expect([name, from]).toEqual([name, Array.from({ length: version - 1 }, (_, index) => index + 1)]);
    }
  });

  it("are not needed for what was written today", () => {
    expect(
      checkEntry(entry("noted", { text: "x" }, { personId, at: day("2026-11-20") })).entry?.schemaVersion,
    ).toBe(1);
  });
});

describe("a marking before surgery", () => {
  const faultsOf = (path: string, value: unknown) =>
    checkEntry(withValue("sited", path, value)).faults?.map((fault) => [fault.path, fault.problem]);

  it("has a mark, and says what the person said to it", () => {
    expect(faultsOf("body.marks", [])).toEqual([["body.marks", "is missing"]]);
    expect(faultsOf("body.consent", undefined)).toEqual([["body.consent", "is missing"]]);
  });

  it("gives no rank twice", () => {
    const mark = { rank: 1, at: [-45, -60], drawnAs: "cross" };
    expect(faultsOf("body.marks", [mark, { ...mark, at: [45, -60] }])).toEqual([
      ["body.marks", "give one rank twice"],
    ]);
  });

  it("of an emergency may be short: landmarks and postures left out", () => {
    const { landmarks: _l, postures: _p, ...short } = (goodOf("sited") as Entry<"sited">).body;
    expect(checkEntry({ ...goodOf("sited"), body: { ...short, emergency: true } }).faults).toBeUndefined();
  });

  it("afterwards, where the stoma was made needs its place on the map, and may name the stoma", () => {
    const made = { what: "made", stomaType: "ileostomy", madeAt: [-42, -58] };
    expect(checkEntry({ ...goodOf("sited"), stomaId: about.stomaId, body: made }).faults).toBeUndefined();
    expect(faultsOf("body", { what: "made", stomaType: "ileostomy" })).toEqual([
      ["body.madeAt", "is missing"],
    ]);
  });

  it("with an area that runs through itself is refused", () => {
    const area = [
      [0, 0],
      [50, 50],
      [50, 0],
      [0, 50],
    ];
    const [fault] = checkEntry(withValue("sited", "body.landmarks", [{ kind: "muscle", shape: { area } }]))
      .faults!;
    expect(fault!.path).toMatch(/^body\.landmarks\.0\.shape/);
  });
});
