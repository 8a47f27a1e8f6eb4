import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { create, type Font } from "fontkit";
import { expect, it } from "vitest";
import { unpackWoff } from "./woff.ts";

it("an unpacked font has the same glyphs, widths and kerning as fontkit finds in the packed one", () => {
  const file = createRequire(import.meta.url).resolve(
    "@fontsource/atkinson-hyperlegible-next/files/atkinson-hyperlegible-next-latin-400-normal.woff",
  );
  const packed = readFileSync(file);
  const [before, after] = [create(packed) as Font, create(unpackWoff(packed)) as Font];
  expect([before.type, after.type]).toEqual(["WOFF", "TTF"]);
  expect(after.characterSet).toEqual(before.characterSet);
  const text = "Hole across 32.0 to 35.0 mm, To AV";
  const positions = (font: Font) => font.layout(text).positions.map(({ xAdvance }) => xAdvance);
  expect(positions(after)).toEqual(positions(before));
  const path = (font: Font) => font.glyphForCodePoint(0x52).path.toSVG();
  expect(path(after)).toBe(path(before));
});
