import { expect, it } from "vitest";
import { type CuttingSheet, cuttingSheet } from "../../src/documents/index.ts";
import { inkBoxMm } from "./measure.ts";
import { describePrinted, type PrintedWord, render, textByPage, wordsByPage } from "./poppler.ts";
import { oval, round, type SampleShape, sheetFor } from "./sheet.ts";

const longTexts: Partial<CuttingSheet> = {
  person: {
    name: "Maximiliana-Theodora Wilhelmina Alexandrina Brandenhorst-Szczebrzeszyńska of Upper Thornmere",
    birthDate: "1948-09-28",
    identifier: "TH-0000-1111-2222-3333-4444-5555-6666",
  },
  clinic: {
    name: "Stoma and Continence Nursing Service of the United Valley Hospitals at Upper Thornmere, House North",
    nursePhone: "00 555 0142 extension 3307",
  },
  stomaLabel:
    "Double-barrelled jejunostomy with mucous fistula, left upper abdomen, the one nearer to the head",
  by: "Specialist Nurse Wilhelmina Featherstonehaugh-Varga",
};

describePrinted("everything on the paper", () => {
  const shapes: [string, SampleShape, Partial<CuttingSheet>][] = [
    ["a small hole", oval(10, 6, 20, 1), {}],
    ["a usual hole", oval(36, 25, 25), {}],
    ["a large hole", oval(75, 60, 10), {}],
    ["long texts", round(30), longTexts],
  ];

  it.each(shapes)("lies within 190 by 254 mm on either paper: %s", async (_, shape, changes) => {
    for (const [paper, widthMm, heightMm] of [
      ["A4", 210, 297],
      ["Letter", 215.9, 279.4],
    ] as const) {
      const pdf = await cuttingSheet(sheetFor(shape, { ...changes, paper }));
      for (let page = 1; page <= wordsByPage(pdf).length; page++) {
        const ink = inkBoxMm(render(pdf, page, 150));
        expect(ink.left).toBeGreaterThan((widthMm - 190) / 2);
        expect(ink.right).toBeLessThan((widthMm + 190) / 2);
        expect(ink.top).toBeGreaterThan((heightMm - 254) / 2);
        expect(ink.bottom).toBeLessThan((heightMm + 254) / 2);
      }
    }
  });

  it.each(shapes)(
    "is at least 3.2 mm tall where it is text, with no word over another: %s",
    async (_, shape, changes) => {
      // the line box of the typeface is 1.3 em high: ascent 0.984, descent 0.316
      const lineBox = 1.3;
      for (const words of wordsByPage(await cuttingSheet(sheetFor(shape, changes)))) {
        expect(words.length).toBeGreaterThan(80);
        for (const { text, top, bottom } of words) {
          expect((bottom - top) / lineBox, text).toBeGreaterThan(3.19);
        }
        const overlapping = words.filter((a, at) => words.slice(at + 1).some((b) => overlap(a, b)));
        expect(overlapping.map(({ text }) => text)).toEqual([]);
      }
    },
  );

  it("names the person by two identifiers on every page, and says demo on each", async () => {
    const pages = textByPage(await cuttingSheet(sheetFor(oval(60, 75, 0))));
    expect(pages).toHaveLength(2);
    for (const page of pages) {
      expect(page).toContain("Edda Farrowby");
      expect(page).toContain("Born 3 April 1951");
      expect(page).toContain("TH-2207");
      expect(page).toContain("DEMO, invented person: do not cut");
    }
  });

  it("does not say demo for a real person", async () => {
    const [page] = textByPage(await cuttingSheet(sheetFor(round(26), { demo: false })));
    expect(page).not.toContain("DEMO");
  });

  it("gives both measures, the day, the numbers to call and what makes the sheet void", async () => {
    const [page] = textByPage(await cuttingSheet(sheetFor(oval(31, 28, 0))));
    for (const said of [
      "32.0 to 35.0 mm",
      "Gap each side",
      "2.0 mm was asked for",
      "Sat 12 December 2026, day 44",
      "(80 %: day 38 to 55)",
      "measure again by Wed 2 December 2026",
      "Made day 27, Wed 25 November 2026, by I. Varga, from a tracing",
      "Not measured or not good: do not cut",
      "99.5 to 100.5 mm and 49.75 to 50.25 mm",
      "inner edge of the heavy line",
      "Throw away sheet 3",
      "555 0142",
      "out of hours 555 0199",
      "emergency 555 0100",
      "Your local protocol and your own clinicians decide",
    ]) {
      expect(page).toContain(said);
    }
  });

  it("does not ask for a gap where none was wanted", async () => {
    const none = { clearanceMm: 0, gapEachSideMm: { min: 0, max: 0 } };
    const [page] = textByPage(await cuttingSheet(sheetFor(round(26, 0), none)));
    expect(page).toContain("it meets the stoma all round, pressing nowhere");
    expect(page).toContain("If it presses on the stoma");
    expect(page).not.toContain("touching nowhere");
  });

  it("says that the day is not known yet, and still when to measure again", async () => {
    const [page] = textByPage(await cuttingSheet(sheetFor(round(26), { fitsUntil: undefined })));
    expect(page).toContain("not known yet");
    expect(page).toContain("measure again by Wed 2 December 2026");
    expect(page).not.toContain("80 %");
  });

  it("names the printer's own bars when it is drawn for one printer", async () => {
    const [page] = textByPage(await cuttingSheet(sheetFor(round(26), { printScale: { x: 0.97, y: 0.985 } })));
    expect(page).toContain("For the printer that gave 97 by 98.5 mm");
    expect(page).toContain("do not cut");
  });

  it("prints Greek, Cyrillic, Polish and Vietnamese names as they are written", async () => {
    for (const name of ["Σοφία Αγγέλου", "Иван Щукин", "Łucja Żółć", "Nguyễn Thị Ánh"]) {
      const [page] = textByPage(
        await cuttingSheet(sheetFor(round(26), { person: { name, identifier: "TH-1" } })),
      );
      expect(page!.normalize("NFC")).toContain(name);
    }
  });

  it("says so where no typeface has the name's script, and leans on the other two identifiers", async () => {
    const person = { name: "فاطمة", birthDate: "1951-04-03", identifier: "TH-2207" };
    const [page] = textByPage(await cuttingSheet(sheetFor(round(26), { person })));
    expect(page).toContain("its script cannot be printed");
    expect(page).toContain("Born 3 April 1951");
    expect(page).toContain("TH-2207");
    expect(page).not.toMatch(/[\u0600-\u06ff\ufffd]/);
  });
});

/** Line boxes are taller than the letters in them, so the middle 40 % is compared. */
function overlap(a: PrintedWord, b: PrintedWord): boolean {
  const middle = ({ top, bottom }: PrintedWord) =>
    [top * 0.7 + bottom * 0.3, top * 0.3 + bottom * 0.7] as const;
  const [aTop, aBottom] = middle(a);
  const [bTop, bBottom] = middle(b);
  return a.left < b.right - 0.1 && b.left < a.right - 0.1 && aTop < bBottom && bTop < aBottom;
}
