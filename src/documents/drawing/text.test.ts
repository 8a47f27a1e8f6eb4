import { beforeEach, describe, expect, it } from "vitest";
import { type Drawing, newPage, openDrawing } from "./drawing.ts";
import { shrink, smallestMm, widthMm, wrap, write } from "./text.ts";

let drawing: Drawing;
beforeEach(() => {
  drawing = openDrawing({ title: "A page", subject: "", paper: "A4", madeOn: "2026-11-25" });
  newPage(drawing);
});

const style = { sizeMm: 4 };
const sentence = "Keep 10 mm of barrier outside the hole and mind any limit that is printed on it.";

describe("text in millimetres", () => {
  it("no line is wider than its column, and no word is lost", () => {
    for (const columnMm of [160, 60, 30]) {
      const lines = wrap(drawing, sentence, style, columnMm);
      for (const line of lines) expect(widthMm(drawing, line, style)).toBeLessThanOrEqual(columnMm + 0.1);
      expect(lines.join(" ")).toBe(sentence);
    }
  });

  it("a word too long for the column is broken, not cut off", () => {
    const lines = wrap(drawing, `No. ${"9".repeat(80)}`, style, 40);
    for (const line of lines) expect(widthMm(drawing, line, style)).toBeLessThanOrEqual(40);
    expect(lines.join("").replace(" ", "")).toBe(`No.${"9".repeat(80)}`);
  });

  it("a long name shrinks to stay on its lines, but never under 3.2 mm: then it takes more lines", () => {
    const name = "Maximiliana-Theodora Brandenhorst of Thornmere";
    const kept = shrink(drawing, "Edda", { sizeMm: 6 }, 80);
    expect(kept.style.sizeMm).toBe(6);
    const smaller = shrink(drawing, name, { sizeMm: 6 }, 100);
    expect(smaller.lines).toEqual([name]);
    expect(smaller.style.sizeMm).toBeLessThan(6);
    const wrapped = shrink(drawing, name, { sizeMm: 6 }, 40);
    expect(wrapped.style.sizeMm).toBe(smallestMm);
    expect(wrapped.lines.length).toBeGreaterThan(1);
  });

  it("figures are all of one width, so that they stand in columns", () => {
    expect(widthMm(drawing, "1111", style)).toBeCloseTo(widthMm(drawing, "8888", style), 6);
  });

  it("refuses to set anything under 3.2 mm, or an empty box for a letter", () => {
    const place = { xMm: 0, baselineMm: 10 };
    expect(() => write(drawing, "small", place, { sizeMm: 3 })).toThrow(RangeError);
    expect(() => write(drawing, "王", place, style)).toThrow(RangeError);
  });
});
