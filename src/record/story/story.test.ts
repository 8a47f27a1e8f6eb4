import { describe, expect, it } from "vitest";
import {
  change,
  clinicEntry,
  day,
  drainable,
  entry,
  instant,
  now,
  round,
  samplePerson,
  stomaOf,
  stored,
  storyOf,
} from "../../../test/record/samples.ts";
import { defaultProtocol } from "../../domain/protocol/index.ts";
import type { BodyOf, Entry } from "../entry/index.ts";
import {
  clinicStory,
  gapBetween,
  personStory,
  plannedDays,
  shortBelowDays,
  systemOn,
  wearInput,
  wornDays,
} from "./index.ts";

const person = samplePerson();
const { about } = person;

function changed(time: string, body: BodyOf<"changed"> = change(), more = {}): Entry<"changed"> {
  return entry("changed", body, { ...about, at: instant(time), ...more });
}

function fitted(
  time: string,
  system: Partial<BodyOf<"fitted">["system"]> = {},
  more: Partial<BodyOf<"fitted">> = {},
) {
  return entry(
    "fitted",
    { system: { ...drainable.system, ...system }, ...more },
    { ...about, at: instant(time) },
  );
}

const wearsOf = (...entries: Entry[]) => stomaOf([...person.entries, ...entries]).wears;

describe("a wear", () => {
  it("is one barrier's life, from the change that put it on to the change that took it off", () => {
    const wears = wearsOf(
      changed("2026-11-01T08:00:00Z"),
      changed("2026-11-04T20:00:00Z", change("leakUnderBarrier")),
      changed("2026-11-08T08:00:00Z"),
    );
    expect(wears.map((wear) => [wornDays(wear, now), wear.why])).toEqual([
      [3.5, "leakUnderBarrier"],
      [3.5, "planned"],
      [17 + 2 / 24, null],
    ]);
  });

  it("goes on when only a pouch, a cap or a night bag is changed", () => {
    const wears = wearsOf(
      changed("2026-11-01T08:00:00Z"),
      changed("2026-11-02T08:00:00Z", change("planned", { what: "pouchOnly" })),
      changed("2026-11-02T22:00:00Z", change("planned", { what: "nightBag" })),
      changed("2026-11-04T08:00:00Z"),
    );
    expect(wears.map((wear) => wornDays(wear, now))[0]).toBe(3);
  });

  it("of a one-piece system ends with its pouch, which is its barrier too", () => {
    const pouch = changed("2026-11-02T08:00:00Z", change("planned", { what: "pouchOnly" }));
    const start = changed("2026-11-01T08:00:00Z");
    expect(wearsOf(fitted("2026-10-30T08:00:00Z", { pieces: "one" }), start, pouch)).toHaveLength(2);
    expect(wearsOf(fitted("2026-10-30T08:00:00Z", { pieces: "two" }), start, pouch)).toHaveLength(1);
  });

  it("is elapsed time: the night the clocks go back is an hour longer", () => {
    const [wear] = wearsOf(changed("2026-10-24T11:00:00Z"), changed("2026-10-25T12:00:00Z"));
    expect(wornDays(wear!, now) * 24).toBe(25);
  });

  it("knows the system it was worn with, the one named at the change before the one in use", () => {
    const [first, second] = wearsOf(
      fitted("2026-10-30T08:00:00Z", { name: "flat" }),
      fitted("2026-11-03T08:00:00Z", { name: "convex", closure: "closed" }),
      changed("2026-11-01T08:00:00Z"),
      changed("2026-11-04T08:00:00Z", change("planned", { systemName: "flat" })),
      changed("2026-11-06T08:00:00Z"),
    );
    expect([first?.systemName, second?.systemName]).toEqual(["flat", "flat"]);
    expect(second?.closure).toBe("drainable");
  });

  it("that was put on by an entry taken back never was", () => {
    const mistaken = changed("2026-11-02T08:00:00Z", change("leakPastEdge"));
    const back = changed("2026-11-02T08:00:00Z", change("leakPastEdge"), {
      corrects: { id: mistaken.id, as: "retract" },
      reason: "another person's",
    });
    const wears = wearsOf(changed("2026-11-01T08:00:00Z"), mistaken, changed("2026-11-04T08:00:00Z"), back);
    expect(wears.map((wear) => wornDays(wear, now))[0]).toBe(3);
  });

  it("is planned for the person's own interval, else for the protocol's for its closure", () => {
    const wear = { closure: null, plannedIntervalDays: null };
    expect(plannedDays({ ...wear, plannedIntervalDays: 2 }, defaultProtocol)).toBe(2);
    expect(plannedDays({ ...wear, closure: "drainable" }, defaultProtocol)).toBe(3.5);
    expect(plannedDays({ ...wear, closure: "closed" }, defaultProtocol)).toBe(0.5);
  });

  it("is short below 48 hours, or below its share of a shorter plan", () => {
    expect(shortBelowDays({ closure: "drainable", plannedIntervalDays: null }, defaultProtocol)).toBe(2);
    expect(shortBelowDays({ closure: "drainable", plannedIntervalDays: 7 }, defaultProtocol)).toBe(2);
    expect(shortBelowDays({ closure: "closed", plannedIntervalDays: null }, defaultProtocol)).toBeCloseTo(
      0.286,
      6,
    );
  });

  it("reaches the computation with its ending, its system and when the seal was last sound", () => {
    const wears = wearsOf(
      changed("2026-11-01T08:00:00Z"),
      changed("2026-11-04T08:00:00Z", change("leakPastEdge", { lastSoundAt: "2026-11-03T20:00:00Z" })),
      changed("2026-11-05T08:00:00Z", change("itchOrLifting", { lastSoundAt: "2026-11-01T08:00:00Z" })),
    );
    expect(wearInput(wears, now)).toEqual([
      { days: 3, ended: "leak", group: undefined, foundAfterDays: 2.5 },
      { days: 1, ended: "sealTrouble", group: undefined, foundAfterDays: undefined },
      { days: 20 + 2 / 24, ended: "stillOn", group: undefined, foundAfterDays: undefined },
    ]);
  });
});

describe("a person's story", () => {
  it("needs a person, and keeps every entry newest first", () => {
    expect(personStory(stored([entry("noted", { text: "x" }, { personId: person.personId })]))).toBeNull();
    const story = storyOf([
      ...person.entries,
      entry("noted", { text: "x" }, { personId: person.personId, at: day("2026-11-20") }),
    ]);
    expect(story.history.map(({ entry: { kind } }) => kind)).toEqual(["noted", "stoma", "person"]);
  });

  it("takes the last details that were written", () => {
    const moved = entry(
      "person",
      { name: "Edda Voss-Lind", identifier: "R-1042" },
      { personId: person.personId },
    );
    expect(storyOf([...person.entries, moved]).details.name).toBe("Edda Voss-Lind");
  });

  it("orders readings by the time they are about, not by when they were written down", () => {
    const stoma = stomaOf([
      ...person.entries,
      entry("measured", round(30), { ...about, at: day("2026-11-08") }),
      entry("measured", round(34), { ...about, at: day("2026-11-01") }),
    ]);
    expect(stoma.readings.map(({ day: on, longestMm }) => [on, longestMm])).toEqual([
      [12, 34],
      [19, 30],
    ]);
  });

  it("measures an oval by its longest and narrowest extent, however it is tilted", () => {
    const oval: BodyOf<"measured"> = {
      method: "guide",
      shape: { guide: { shape: "oval", lengthMm: 28, widthMm: 40, tiltDeg: 20 } },
    };
    const square: BodyOf<"measured"> = {
      method: "tracing",
      shape: {
        outline: [
          [-10, -10],
          [10, -10],
          [10, 10],
          [-10, 10],
        ],
      },
    };
    const { readings } = stomaOf([
      ...person.entries,
      entry("measured", oval, { ...about, at: day("2026-11-01") }),
      entry("measured", square, { ...about, at: day("2026-11-02") }),
    ]);
    expect(readings[0]).toMatchObject({ longestMm: 40, narrowestMm: 28 });
    expect(readings[1]?.longestMm).toBeCloseTo(20 * Math.SQRT2, 9);
    expect(readings[1]?.narrowestMm).toBeCloseTo(20, 9);
  });

  it("knows each opening's days, and the system of a day", () => {
    const disc = (diameterMm: number): BodyOf<"cut"> => ({
      opening: { guide: { shape: "round", diameterMm } },
      how: "sheet",
    });
    const stoma = stomaOf([
      ...person.entries,
      entry("cut", disc(40), { ...about, at: day("2026-11-01") }),
      entry("cut", disc(36), { ...about, at: day("2026-11-08") }),
      fitted("2026-11-02T08:00:00Z", { name: "flat" }),
      fitted("2026-11-09T08:00:00Z", { name: "convex" }),
    ]);
    expect(stoma.openings.map(({ from, to }) => [from, to])).toEqual([
      ["2026-11-01", "2026-11-08"],
      ["2026-11-08", null],
    ]);
    const named = ["2026-11-01", "2026-11-05", "2026-11-09"].map(
      (on) => systemOn(stoma, on)?.entry.body.system.name,
    );
    expect(named).toEqual([undefined, "flat", "convex"]);
  });
});

describe("the gap between a stoma and an opening", () => {
  const far: BodyOf<"measured"> = {
    method: "tracing",
    shape: {
      outline: [
        [80, 80],
        [110, 80],
        [110, 110],
        [80, 110],
      ],
    },
  };
  const near: BodyOf<"cut"> = { opening: { guide: { shape: "round", diameterMm: 50 } }, how: "byHand" };

  it("takes both to lie centre on centre, wherever each was drawn", () => {
    const stoma = stomaOf([...person.entries, entry("measured", far, about), entry("cut", near, about)]);
    const gap = gapBetween(stoma.readings[0]!, stoma.openings[0]!);
    expect(gap.minGapMm).toBeCloseTo(25 - 15 * Math.SQRT2, 1);
  });

  it("takes an opening cut from that very reading where it was drawn", () => {
    const measured = entry("measured", round(30), about);
    const shifted: BodyOf<"cut"> = {
      opening: {
        outline: [
          [-18, -20],
          [22, -20],
          [22, 20],
          [-18, 20],
        ],
      },
      how: "sheet",
      measuredId: measured.id,
    };
    const stoma = stomaOf([...person.entries, measured, entry("cut", shifted, about)]);
    expect(gapBetween(stoma.readings[0]!, stoma.openings[0]!).minGapMm).toBeCloseTo(3, 2);
  });
});

describe("the clinic's story", () => {
  it("begins with its set-up", () => {
    expect(clinicStory([])).toBeNull();
  });

  it("lays the changes of the protocol over the defaults, the last one holding", () => {
    const set = (value: number, more = {}) =>
      entry("protocolSet", { key: "maxGapMm", value }, { reason: "ours", ...more });
    const first = set(4);
    const story = clinicStory(stored([clinicEntry(), first, set(5)]))!;
    expect(story.protocol).toEqual({ ...defaultProtocol, maxGapMm: 5 });
    expect(story.protocolVersion).toBe(2);
  });

  it("never gives two protocols the same number, a change that was taken back counts on", () => {
    const set = entry("protocolSet", { key: "maxGapMm", value: 4 }, { reason: "ours" });
    const back = entry(
      "protocolSet",
      { key: "maxGapMm", value: 4 },
      { reason: "no", corrects: { id: set.id, as: "retract" } },
    );
    const versions = [[], [set], [set, back]].map(
      (entries) => clinicStory(stored([clinicEntry(), ...entries]))!.protocolVersion,
    );
    expect(versions).toEqual([0, 1, 2]);
    expect(clinicStory(stored([clinicEntry(), set, back]))!.protocol.maxGapMm).toBe(defaultProtocol.maxGapMm);
  });
});

describe("a measurement sent from home", () => {
  const { about, entries } = samplePerson();
  const sent = entry("measured", { ...round(30), unconfirmed: true }, { ...about, at: day("2026-11-20") });

  it("counts nowhere until a nurse accepts it, and is not lost from sight", () => {
    const stoma = stomaOf([...entries, sent]);
    expect(stoma.readings).toEqual([]);
    expect(stoma.awaiting.map(({ longestMm }) => longestMm)).toEqual([30]);
  });

  it("accepted by a correction, it counts from the day on which it was taken", () => {
    const accepted = entry("measured", round(31), {
      ...about,
      at: day("2026-11-20"),
      corrects: { id: sent.id, as: "replace" },
      reason: "accepted; edge moved at 6 o'clock",
    });
    const stoma = stomaOf([...entries, sent, accepted]);
    expect(stoma.readings.map(({ longestMm, on }) => [longestMm, on])).toEqual([[31, "2026-11-20"]]);
    expect(stoma.awaiting).toEqual([]);
  });
});

it("the last answer to each purpose of photographs holds, so that one can be taken back alone", () => {
  const { personId, entries } = samplePerson();
  const answer = (date: string, purposes: ("keep" | "teach")[], given: boolean) =>
    entry(
      "consented",
      { about: "photographs", purposes, given, how: "spoken", by: "person" },
      { personId, at: day(date) },
    );
  const { consents } = storyOf([
    ...entries,
    answer("2026-11-01", ["keep", "teach"], true),
    answer("2026-11-10", ["teach"], false),
  ]);
  expect(consents.keep?.entry.body.given).toBe(true);
  expect(consents.teach?.entry.body.given).toBe(false);
  expect(consents.showColleagues).toBeUndefined();
});

it("a marking before surgery needs no stoma, and where the stoma was made is told beside it", () => {
  const { personId, stomaId, entries } = samplePerson();
  const marked = entry(
    "sited",
    {
      what: "marked",
      stomaType: "ileostomy",
      marks: [{ rank: 1, at: [-45, -60], drawnAs: "cross" }],
      consent: { given: true, how: "spoken", by: "person" },
    },
    { personId, at: day("2026-10-01") },
  );
  const made = entry(
    "sited",
    { what: "made", stomaType: "ileostomy", madeAt: [-42, -58], markedId: marked.id },
    { personId, stomaId, at: day("2026-10-20") },
  );
  const { sited } = storyOf([...entries, made, marked]);
  expect(sited.map(({ entry: { body } }) => body.what)).toEqual(["marked", "made"]);
});
