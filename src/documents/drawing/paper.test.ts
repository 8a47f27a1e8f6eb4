import { describe, expect, it } from "vitest";
import { checkPaper, fitToPageScale, pointsPerMm, printCorrection, printScaleLimits } from "./paper.ts";

describe("paper and print scale", () => {
  it("35 mm are 99.2126 PDF points (PDF: 72 an inch)", () => {
    expect(35 * pointsPerMm).toBeCloseTo(99.2126, 3);
  });

  it("an A4 page fitted onto Letter comes out at 0.94074 (arithmetic: 279.4 / 297), within what can be corrected", () => {
    expect(fitToPageScale("A4", "Letter")).toBeCloseTo(0.94074, 4);
    expect(fitToPageScale("A4", "Letter")).toBeGreaterThan(printScaleLimits.least);
  });

  it("a bar that reads 97 mm is corrected by 1.03093 (arithmetic: 100 / 97)", () => {
    const correction = printCorrection({ x: 0.97, y: 1 });
    expect(correction).toEqual({ x: expect.closeTo(1.03093, 5), y: 1 });
    // Uncorrected, a hole of 35 mm would come out 33.95 mm across (the facts' check value 39, arithmetic).
    expect(35 / correction.x).toBeCloseTo(33.95, 3);
  });

  it("without a measured bar nothing is corrected", () => {
    expect(printCorrection()).toEqual({ x: 1, y: 1 });
  });

  it("refuses the scale of a 50 mm bar entered as one of 100, in either direction, and says which", () => {
    expect(() => checkPaper("A4", { x: 0.5, y: 1 })).toThrow(/^printScale\.x: .*got 0\.5/);
    expect(() => checkPaper("A4", { x: 1, y: 2 })).toThrow(/^printScale\.y: .*got 2/);
    expect(() => checkPaper("A4", { x: Number.NaN, y: 1 })).toThrow(/printScale\.x/);
  });

  it("refuses a paper it does not know", () => {
    expect(() => checkPaper("A5" as "A4", undefined)).toThrow(/^paper: is not a known paper/);
  });
});
