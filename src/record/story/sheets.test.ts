import { describe, expect, it } from "vitest";
import { day, entry, round, samplePerson, stomaOf } from "../../../test/record/samples.ts";
import type { BodyOf } from "../entry/index.ts";

const person = samplePerson();
const reading = entry("measured", round(36), { ...person.about, at: day("2026-11-20") });

function sheet(sheetNumber: number, from: string[]) {
  const body: BodyOf<"advised"> = {
    what: "cuttingSheet",
    sheetNumber,
    measuredId: from[0]!,
    clearanceMm: 2,
    from,
    protocolVersion: 0,
    programVersion: "0.0.1",
    words: [],
    paper: "A4",
  };
  return entry("advised", body, { ...person.about, at: day("2026-11-21") });
}

const corrected = entry("measured", round(31), {
  ...person.about,
  at: day("2026-11-20"),
  corrects: { id: reading.id, as: "replace" },
  reason: "wrong ring read",
});
const takenBack = { ...corrected, corrects: { id: reading.id, as: "retract" as const } };

describe("a cutting sheet", () => {
  const overtaken = (...more: Parameters<typeof stomaOf>[0]) =>
    stomaOf([...person.entries, reading, ...more]).overtakenSheet;

  it("stands while nothing it rests on was corrected", () => {
    expect(overtaken(sheet(1, [reading.id]))).toBeNull();
  });
  it("is overtaken when its reading is corrected afterwards, and when it is taken back", () => {
    const expected = { sheetNumber: 1, madeOn: "2026-11-21" };
    expect(overtaken(sheet(1, [reading.id]), corrected)).toEqual(expected);
    expect(overtaken(sheet(1, [reading.id]), takenBack)).toEqual(expected);
  });
  it("made from the corrected reading stands", () => {
    expect(overtaken(corrected, sheet(1, [corrected.id]))).toBeNull();
  });
  it("that replaces an overtaken one settles the matter", () => {
    expect(overtaken(sheet(1, [reading.id]), corrected, sheet(2, [corrected.id]))).toBeNull();
  });
  it("is not overtaken by a correction of something else", () => {
    const other = entry("measured", round(35), { ...person.about, at: day("2026-11-21") });
    const otherCorrected = {
      ...corrected,
      id: entry("noted", { text: "x" }).id,
      corrects: { id: other.id, as: "replace" as const },
    };
    expect(overtaken(other, sheet(1, [reading.id]), otherCorrected)).toBeNull();
  });
});
