import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clinicEntry, day, entry, round, samplePerson, stored } from "../../../test/record/samples.ts";
import { checkEntry, type Entry, type RecordedShape } from "../entry/index.ts";
import { clinicStory, healingOf, personStory } from "../story/index.ts";
import { folded, projectPerson } from "./rows.ts";

const person = samplePerson();
const { about } = person;

function projected(...entries: Entry[]) {
  return projectPerson(stored([...person.entries, ...entries]));
}

function cut(opening: RecordedShape, measuredId?: string): Entry {
  return entry("cut", { opening, how: "sheet", measuredId }, { ...about, at: day("2026-11-20") });
}

describe("facts of a stoma", () => {
  it("are its last reading, the opening in use and the gap between them", () => {
    const measured = entry("measured", round(30), { ...about, at: day("2026-11-18") });
    const opening: RecordedShape = { guide: { shape: "round", diameterMm: 36 } };
    expect(projected(measured, cut(opening))?.stomas).toMatchObject([
      {
        clockStartOn: "2026-10-20",
        lastMeasuredOn: "2026-11-18",
        lastLongestMm: 30,
        openingSince: "2026-11-20",
        widestGapMm: 3,
        narrowestGapMm: 3,
      },
    ]);
  });

  it("say nothing of a gap before both are known", () => {
    expect(projected(entry("measured", round(30), about))?.stomas[0]).toMatchObject({
      widestGapMm: null,
      openingSince: null,
    });
  });

  it("take an opening as large as the stoma for one that touches it, not for one inside it", () => {
    const octagon = (mm: number): RecordedShape => ({
      outline: Array.from({ length: 8 }, (_, corner): [number, number] => [
        mm * Math.cos((corner * Math.PI) / 4 + 0.1),
        mm * Math.sin((corner * Math.PI) / 4 + 0.1),
      ]),
    });
    const measured = entry("measured", { method: "tracing", shape: octagon(15) }, about);
    expect(projected(measured, cut(octagon(15)))?.stomas[0]).toMatchObject({
      narrowestGapMm: 0,
      widestGapMm: 0,
    });
  });

  it("are none of a person who is none", () => {
    expect(projectPerson(stored([entry("noted", { text: "x" }, { personId: person.personId })]))).toBeNull();
  });
});

const coordinate = fc.oneof(
  fc.double({ min: -200, max: 200, noNaN: true }),
  fc.integer({ min: -20, max: 20 }),
  fc.double({ min: -1e-6, max: 1e-6, noNaN: true }),
);
const outline = fc.oneof(
  fc.array(fc.tuple(coordinate, coordinate), { minLength: 3, maxLength: 7 }),
  fc
    .array(fc.double({ min: 0.01, max: 100, noNaN: true }), { minLength: 3, maxLength: 24 })
    .map((radii) =>
      radii.map((mm, at): [number, number] => [
        mm * Math.cos((2 * Math.PI * at) / radii.length),
        mm * Math.sin((2 * Math.PI * at) / radii.length),
      ]),
    ),
);

describe("any outline that the record takes", () => {
  it("can be shown on the lists with finite figures, whatever its shape", () => {
    let taken = 0;
    const clinic = clinicStory(stored([clinicEntry()]))!;
    fc.assert(
      fc.property(outline, outline, (stoma, opening) => {
        const measured = entry("measured", { method: "tracing", shape: { outline: stoma } }, about);
        const entries = [measured, cut({ outline: opening })].filter(
          (one) => checkEntry(one).entry !== undefined,
        );
        if (!entries.includes(measured)) return;
        taken += 1;
        const row = projected(...entries)?.stomas[0];
        for (const value of [row?.lastLongestMm, row?.widestGapMm ?? 0, row?.narrowestGapMm ?? 0])
          expect(Number.isFinite(value)).toBe(true);
        healingOf(personStory(stored([...person.entries, ...entries]))!.stomas[0]!, clinic.protocol);
      }),
      { numRuns: 300, seed: 51 },
    );
    expect(taken).toBeGreaterThan(100);
  });
});

describe("a name as it is searched for", () => {
  it.each([
    ["Zoë ÅKERBLOM", "zoe akerblom"],
    ["Søren Wałęsa", "soren walesa"],
    ["İnci Işık", "inci isik"],
    ["Straße", "strasse"],
    ["O’Neill-Şahin", "o’neill-sahin"],
    ["Иванова", "иванова"],
    ["李", "李"],
  ])("%s is %s", (name, expected) => {
    expect(folded(name)).toBe(expected);
  });
});
