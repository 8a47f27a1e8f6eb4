import { describe, expect, it } from "vitest";
import { clinicDetails, day, entry, samplePerson } from "../../../test/record/samples.ts";
import { sitingExample, sitingOfDocument } from "../../cli/print/sitingDocument.ts";
import type { StoredEntry } from "../../record/entry/index.ts";
import { clinicStory, personStory } from "../../record/story/index.ts";
import { sitingFromRecord } from "../fromRecord/index.ts";
import { type SitingRecord, sitingRecord } from "../index.ts";

const example = sitingOfDocument(structuredClone(sitingExample), {});

async function refusal(changes: Partial<SitingRecord>): Promise<string> {
  return sitingRecord({ ...example, ...changes }).then(
    () => "printed",
    (error: Error) => error.message,
  );
}

describe("the siting record", () => {
  it("is one tagged page of vectors, titled with its person", async () => {
    const pdf = (await sitingRecord(example)).toString("latin1");
    expect(pdf.match(/\/Type \/Page\b(?!s)/g)).toHaveLength(1);
    expect(pdf).toContain("/Marked true");
    expect(pdf).toContain("(Siting record, Cosima Brackenhall)");
    expect(pdf).not.toContain("/Subtype /Image");
  });

  it("is the same bytes for the same record", async () => {
    expect((await sitingRecord(example)).equals(await sitingRecord(example))).toBe(true);
  });

  it("is refused without a second identifier, without a mark, with more marks than the page shows", async () => {
    expect(await refusal({ person: { name: "Cosima Brackenhall" } })).toMatch(
      /^person: has only one identifier/,
    );
    expect(await refusal({ marks: [] })).toMatch(/^marks: /);
    expect(await refusal({ marks: [1, 2, 3, 4].map((rank) => ({ ...example.marks[0]!, rank })) })).toMatch(
      /^marks: /,
    );
  });

  it("is refused with a name or a label that no typeface has, rather than printed with empty boxes", async () => {
    expect(await refusal({ surgeonName: "外科" })).toMatch(/^surgeonName: cannot be printed/);
    const landmarks = [
      ...example.question.landmarks,
      { kind: "scar", label: "傷", shape: { point: [60, 90] } } as const,
    ];
    expect(await refusal({ question: { ...example.question, landmarks } })).toMatch(
      /label: cannot be printed/,
    );
  });
});

describe("the siting record of a person's record", () => {
  const { personId, entries } = samplePerson();
  const marked = (date: string, at: [number, number]) =>
    entry(
      "sited",
      {
        what: "marked",
        stomaType: "colostomy",
        readings: { navelToPubisMm: 165, navelToRibMarginMm: 110, hipToHipMm: 250, waistMm: 880 },
        landmarks: [
          {
            kind: "muscle",
            shape: {
              area: [
                [8, -130],
                [46, -130],
                [76, 40],
                [74, 140],
                [8, 140],
              ],
            },
          },
        ],
        postures: ["lying"],
        marks: [{ rank: 1, at, drawnAs: "cross" }],
        consent: { given: true, how: "written", by: "person" },
      },
      { personId, at: day(date) },
    );
  const stored = (list: unknown[]) =>
    list.map((one, cursor) => ({ ...(one as object), cursor })) as StoredEntry[];
  const clinic = clinicStory(stored([entry("clinic", clinicDetails)]))!;
  const first = marked("2026-11-02", [44, -60]);
  const person = personStory(stored([...entries, first, marked("2026-11-09", [46, -70])]))!;

  it("shows the last marking, or the one that is named, under the clinic's protocol", () => {
    const record = sitingFromRecord(person, clinic, {}, true);
    expect(record.marks[0]!.at).toEqual([46, -70]);
    expect(record.madeOn).toBe("2026-11-09");
    expect(record.outline).toBeDefined();
    expect(sitingFromRecord(person, clinic, { markedId: first.id }, true).marks[0]!.at).toEqual([44, -60]);
  });

  it("is refused where nothing was marked", () => {
    const nobody = personStory(stored(entries))!;
    expect(() => sitingFromRecord(nobody, clinic, {}, true)).toThrow(/markedId/);
  });
});
