import { expect, it } from "vitest";
import { sitingExample, sitingOfDocument } from "../../src/cli/print/sitingDocument.ts";
import { type SitingRecord, sitingRecord } from "../../src/documents/index.ts";
import type { Landmark } from "../../src/domain/siting/index.ts";
import { inkBoxMm } from "./measure.ts";
import { describePrinted, render, textByPage } from "./poppler.ts";

const example = sitingOfDocument(structuredClone(sitingExample), {});

/** As full as a page may come: long names, many creases, three marks with notes, nothing kept. */
function fullest(): Partial<SitingRecord> {
  const label = "transverse scar of an operation in childhood, healed by second intention";
  const crowd = Array.from(
    { length: 30 },
    (_, at): Landmark => ({
      kind: at % 2 ? "crease" : "scar",
      label: at % 3 ? undefined : label,
      posture: at % 2 ? "sitting" : undefined,
      shape: {
        line: [
          [-90, -100 + 7 * at],
          [90, -104 + 7 * at],
        ],
      },
    }),
  );
  return {
    person: {
      name: "Wilhelmina Brackenhall-Featherstonehaugh of Nether Thornmere",
      birthDate: "1971-03-09",
      identifier: "TH-0470",
    },
    procedure: "laparoscopic abdominoperineal excision after radiotherapy, with an end colostomy and mesh",
    surgeonName: "Professor Dame Aurelia Quillingworth-Montrose",
    emergency: true,
    continentPlan: true,
    question: { ...example.question, landmarks: [...example.question.landmarks, ...crowd] },
    marks: [1, 2, 3].map((rank) => ({
      rank,
      at: [-40 * (rank - 2), -50],
      drawnAs: "filledCircle",
      covered: true,
      note: "chosen because the chair's lap belt, which cannot be moved, lies over every other place that was looked at on the ward",
    })),
    postures: ["usual"],
    consent: {
      given: true,
      how: "written",
      by: "representative",
      representativeName: "Maximiliana Brackenhall",
    },
    note: "The person uses a chair with a lap belt. ".repeat(6),
  };
}

describePrinted("the printed siting record", () => {
  it("says who, what is planned, where in words and in figures, what was looked at and who decides", async () => {
    const [page, ...others] = textByPage(await sitingRecord(example));
    expect(others).toEqual([]);
    for (const said of [
      "Cosima Brackenhall",
      "Born 9 March 1971",
      "No. TH-0470",
      "Planned: ileostomy, colectomy with end ileostomy",
      "44 mm to the person’s right of the navel and 29 mm below it",
      "95 mm from the right hip bone",
      "lower midline scar 46 52",
      "Every limit kept.",
      "bending forward",
      "Muscle border found by head raise",
      "agreed to be touched and marked",
      "Surgeon: place chosen",
      "The surgeon decides; local protocol holds.",
      "DEMO",
    ]) {
      expect(page).toContain(said);
    }
  });

  it("names what a place does not keep, and postures that nobody looked at", async () => {
    const marks = [{ rank: 1, at: [-20, -60], drawnAs: "cross" }] as const;
    const [page] = textByPage(
      await sitingRecord({ ...example, marks, postures: ["lying"], sees: undefined }),
    );
    expect(page).toContain("NOT kept: lower midline scar");
    expect(page).toContain("Not looked at: sitting, bending forward, standing");
    expect(page).toContain("21 !");
    expect(page).toContain("sees it ?");
  });

  it.each([
    ["A4", 210, 297],
    ["Letter", 215.9, 279.4],
  ] as const)(
    "is one page within 190 by 254 mm on %s, however much it says",
    async (paper, widthMm, heightMm) => {
      const pdf = await sitingRecord({ ...example, ...fullest(), paper });
      expect(textByPage(pdf)).toHaveLength(1);
      const ink = inkBoxMm(render(pdf, 1, 150));
      expect(ink.left).toBeGreaterThan((widthMm - 190) / 2);
      expect(ink.right).toBeLessThan((widthMm + 190) / 2);
      expect(ink.top).toBeGreaterThan((heightMm - 254) / 2);
      expect(ink.bottom).toBeLessThan((heightMm + 254) / 2);
    },
  );
});
