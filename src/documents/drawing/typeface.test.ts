import { create, type Font } from "fontkit";
import { describe, expect, it } from "vitest";
import { canPrint, fontFile, plainLine, textRuns } from "./typeface.ts";

const fontsOf = (text: string) => textRuns(text, "regular")?.map(({ font }) => font);

describe("typefaces", () => {
  it("sets English in one font", () => {
    expect(fontsOf("Edda Farrowby, 32.0 to 35.0 mm")).toEqual(["atkinson-hyperlegible-next-latin-400"]);
  });

  it("sets a Polish name in the same design, from its file of further letters", () => {
    expect(textRuns("Łucja", "bold")).toEqual([
      { font: "atkinson-hyperlegible-next-latin-ext-700", text: "Ł" },
      { font: "atkinson-hyperlegible-next-latin-700", text: "ucja" },
    ]);
  });

  it("never mixes two designs in one word", () => {
    const fonts = fontsOf("Nguyễn")!;
    expect(fonts.every((font) => font.startsWith("noto-sans"))).toBe(true);
  });

  it.each(["Σοφία Ἀγγέλου", "Иван Щукин", "Ґалаґан Їжак", "Đặng Thị Bích", "Guðrún Þórsdóttir", "Őze Ş İ ğ"])(
    "has every letter of %s, so no empty box is printed",
    (name) => {
      for (const weight of ["regular", "bold"] as const) {
        for (const { font, text } of textRuns(plainLine(name), weight)!) {
          const parsed = create(fontFile(font)) as Font;
          expect(parsed.glyphsForString(text).map(({ id }) => id)).not.toContain(0);
        }
      }
    },
  );

  it.each(["فاطمة", "שרה", "আশা", "王小明", "さくら", "김민지", "สมชาย", "🙂"])(
    "says that it cannot print %s",
    (name) => {
      expect(canPrint(name)).toBe(false);
      expect(canPrint(`Anna ${name}`)).toBe(false);
    },
  );

  it("composes letters and marks, and drops what is invisible or turns the line round", () => {
    expect(plainLine("  Zoe\u0308\u00a0\t\u202eMaria\u200b \n")).toBe("Zoë Maria");
    expect(canPrint("Zoe\u0308 \u202eMaria\u200b")).toBe(true);
  });

  it("unpacks a font that measures as the packed one does", () => {
    const run = textRuns("Thornmere 0123456789", "bold")![0]!;
    const unpacked = create(fontFile(run.font)) as Font;
    expect(unpacked.type).toBe("TTF");
    expect(unpacked.layout(run.text).advanceWidth).toBeGreaterThan(9000);
    expect(unpacked.postscriptName).toBe("AtkinsonHyperlegibleNext-Bold");
  });
});
