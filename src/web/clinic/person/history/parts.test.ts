import { describe, expect, it } from "vitest";
import {
  change,
  day,
  entry,
  instant,
  round,
  samplePerson,
  stored,
} from "../../../../../test/record/samples.ts";
import type { Entry } from "../../../../record/entry/index.ts";
import { changedParts, partsOf } from "./parts.ts";

const { about } = samplePerson();
const today = "2026-11-25";
const words = (one: Entry) => partsOf(stored([one])[0]!, today).map((part) => `${part.label}: ${part.words}`);

describe("what an entry says", () => {
  it("of a measurement: how, size, step and when", () => {
    const one = entry(
      "measured",
      { ...round(31), heightMm: 18, posture: "lying" },
      { ...about, at: day("2026-11-24") },
    );
    expect(words(one).map((said) => said.replaceAll("\u00a0", " "))).toEqual([
      "how: guide",
      "across: 31.0 mm",
      "ring step: 3.2 mm",
      "height: 18.0 mm",
      "posture: lying",
      "when: yesterday",
    ]);
  });

  it("of a leak: where, and when the seal was last seen sound, by the clock of the place", () => {
    const body = change("leakUnderBarrier", { leakHours: [5, 3, 4], lastSoundAt: "2026-07-01T21:40:00Z" });
    const one = entry("changed", body, { ...about, at: instant("2026-07-02T06:10:00Z") });
    expect(words(one)).toEqual([
      "what: Barrier (whole change)",
      "why: leak under the barrier",
      "where: at 3, 4 and 5 o’clock",
      "last seen sound: 1 July 22:40",
      "when: 2 July 07:10",
    ]);
  });
});

describe("a correction beside what it corrects", () => {
  it("names each part that differs, and those that only one of them has", () => {
    const before = [
      { label: "across", words: "36.0 mm" },
      { label: "posture", words: "lying" },
      { label: "how", words: "guide" },
    ];
    const after = [
      { label: "across", words: "31.0 mm" },
      { label: "how", words: "guide" },
      { label: "note", words: "read anew" },
    ];
    expect(changedParts(before, after)).toEqual([
      { label: "across", was: "36.0 mm", is: "31.0 mm" },
      { label: "posture", was: "lying", is: null },
      { label: "note", was: null, is: "read anew" },
    ]);
  });
});
