import { describe, expect, it } from "vitest";
import {
  change,
  day,
  entry,
  instant,
  now,
  round,
  samplePerson,
  since,
  zone,
} from "../../../test/record/samples.ts";
import { type At, type BodyOf, contradictions, type Entry, type Known } from "./index.ts";

const { about, personId } = samplePerson();
const known: Known = { nowMs: now, zone };

const paths = (one: Entry, more: Partial<Known> = {}) =>
  contradictions(one, { ...known, ...more }).map(({ path }) => path);
const measured = (at: At, more = {}) => entry("measured", round(32), { ...about, at, ...more });

describe("the future", () => {
  it.each([
    [instant("2026-11-25T10:00:00Z"), []],
    [instant("2026-11-25T10:05:00Z"), []],
    [instant("2026-11-25T10:05:01Z"), ["at"]],
    [day("2026-11-25"), []],
    [day("2026-11-26"), ["at"]],
    [{ date: "2026-11-01", precision: "month" }, []],
    [{ date: "2026-11-30", precision: "month" }, []],
    [{ date: "2026-12-01", precision: "month" }, ["at"]],
    [{ date: "2026-12-31", precision: "year" }, []],
    [{ date: "2027-01-01", precision: "year" }, ["at"]],
  ] as [At, string[]][])("%j is told apart from now, give or take a clock's five minutes", (at, expected) => {
    expect(paths(measured(at))).toEqual(expected);
  });

  it("begins at midnight where the clinic is", () => {
    const lateInLondon = Date.parse("2026-11-25T23:30:00Z");
    expect(paths(measured(day("2026-11-26")), { nowMs: lateInLondon })).toEqual(["at"]);
    expect(paths(measured(day("2026-11-26")), { nowMs: lateInLondon, zone: "Asia/Tokyo" })).toEqual([]);
  });
});

describe("the past", () => {
  it("further back than a life is refused", () => {
    expect(paths(measured(day("1896-01-01")))).toEqual(["at"]);
    expect(paths(measured(instant("0001-01-01T00:00:00Z")))).toEqual(["at"]);
    expect(paths(measured(day("1990-01-01")))).toEqual([]);
  });
});

describe("surgery", () => {
  const surgery = since("2026-10-20");
  it.each([
    ["2026-10-19", surgery, ["at"]],
    ["2026-10-20", surgery, []],
    ["2026-10-02", { date: "2026-10-20", precision: "month" }, []],
    ["2026-09-30", { date: "2026-10-20", precision: "month" }, ["at"]],
    ["2026-01-02", { date: "2026-10-20", precision: "year" }, []],
    ["2025-12-31", { date: "2026-10-20", precision: "year" }, ["at"]],
  ] as const)("a measurement of %s with surgery %j", (date, made, expected) => {
    expect(paths(measured(day(date)), { surgery: made })).toEqual(expected);
  });

  it("in a month that may be the month of the measurement is no contradiction", () => {
    expect(paths(measured({ date: "2026-10-01", precision: "month" }), { surgery })).toEqual([]);
  });

  it("moved past the first measurement is refused, and the day is named", () => {
    const stoma = (date: string) =>
      entry("stoma", { type: "ileostomy", construction: "end", surgeryOn: since(date) }, about);
    const firstUseOn = "2026-10-25";
    expect(paths(stoma("2026-10-25"), { firstUseOn })).toEqual([]);
    expect(contradictions(stoma("2026-10-26"), { ...known, firstUseOn })).toMatchObject([
      { path: "body.surgeryOn.date", expected: "2026-10-25 or earlier" },
    ]);
    expect(paths(stoma("2026-11-26"))).toEqual(["body.surgeryOn.date"]);
    expect(paths(stoma("1801-01-01"))).toEqual(["body.surgeryOn.date"]);
  });

  it("unknown contradicts nothing", () => {
    expect(
      paths(entry("stoma", { type: "ileostomy", construction: "end" }, about), { firstUseOn: "2026-10-25" }),
    ).toEqual([]);
  });
});

describe("a birth date", () => {
  const born = (birthDate: string) => entry("person", { name: "Edda Voss", birthDate }, { personId });
  it.each([
    ["1951-04-03", []],
    ["2026-11-25", []],
    ["2026-11-26", ["body.birthDate"]],
    ["1890-01-01", ["body.birthDate"]],
  ])("%s", (birthDate, expected) => {
    expect(paths(born(birthDate))).toEqual(expected);
  });
});

describe("a seal last seen sound", () => {
  const changed = (at: At, lastSoundAt: string) =>
    entry("changed", change("leakPastEdge", { lastSoundAt }), { ...about, at });
  it("after the change is refused", () => {
    const at = instant("2026-11-20T08:00:00Z");
    expect(paths(changed(at, "2026-11-20T08:00:00Z"))).toEqual([]);
    expect(paths(changed(at, "2026-11-20T08:01:00Z"))).toEqual(["body.lastSoundAt"]);
    expect(paths(changed(day("2026-11-20"), "2026-11-20T21:00:00Z"))).toEqual([]);
    expect(paths(changed(day("2026-11-20"), "2026-11-23T21:00:00Z"))).toEqual(["body.lastSoundAt"]);
  });
});

describe("a correction", () => {
  const corrects = { id: measured(day("2026-11-01")).id, as: "replace" } as const;
  const target: Known["target"] = { kind: "measured", ...about };

  it("names an entry of the record, of the same kind, person and stoma", () => {
    const correction = measured(day("2026-11-01"), { corrects, reason: "misread" });
    expect(paths(correction, { target })).toEqual([]);
    expect(paths(correction, { target: null })).toEqual(["corrects.id"]);
    expect(paths(correction, { target: { ...target, kind: "cut" } })).toEqual(["kind"]);
    expect(paths(correction, { target: { ...target, stomaId: personId } })).toEqual(["stomaId"]);
  });

  it("that takes back may be about anything, a wrong date too", () => {
    const wrong = measured(day("2027-01-01"), {
      corrects: { ...corrects, as: "retract" },
      reason: "wrong year",
    });
    expect(paths(wrong, { target, surgery: since("2026-10-20") })).toEqual([]);
  });
});

it("entries that are about no use of the stoma may lie before its surgery", () => {
  const marked: Entry = entry("noted", { text: "Site marked." } satisfies BodyOf<"noted">, {
    ...about,
    at: day("2026-10-18"),
  });
  expect(paths(marked, { surgery: since("2026-10-20") })).toEqual([]);
});
