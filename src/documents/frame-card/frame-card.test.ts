import { describe, expect, it } from "vitest";
import { card } from "../../domain/frame-card/index.ts";
import { frameCard } from "../index.ts";

describe("the frame card", () => {
  it("has eight different markers of 6 by 6 modules with a black border", () => {
    expect(card.markers).toHaveLength(8);
    expect(new Set(card.markers.map(({ modules }) => JSON.stringify(modules))).size).toBe(8);
    for (const { modules } of card.markers) {
      expect(modules.map((row) => row.length)).toEqual([6, 6, 6, 6, 6, 6]);
      modules.forEach((row, at) => {
        for (const edge of at === 0 || at === 5 ? row : [row[0], row[5]]) expect(edge).toBe(0);
      });
    }
  });

  it("keeps every marker on the card and out of the hole", () => {
    for (const { centreMm } of card.markers) {
      const half = card.markerSideMm / 2;
      expect(Math.max(...centreMm.map(Math.abs)) + half).toBeLessThan(card.sideMm / 2);
      const nearest = Math.hypot(...centreMm.map((mm) => Math.max(0, Math.abs(mm) - half)));
      expect(nearest).toBeGreaterThan(card.holeRadiusMm);
    }
  });

  it("is one tagged page of vectors", async () => {
    const pdf = (await frameCard({ paper: "Letter", batchLabel: "Box 12" })).toString("latin1");
    expect(pdf.match(/\/Type \/Page\b(?!s)/g)).toHaveLength(1);
    expect(pdf).toContain("/Marked true");
    expect(pdf).not.toContain("/Subtype /Image");
  });

  it("leaves off a batch label that no typeface has, and refuses a print scale that is none", async () => {
    await expect(frameCard({ paper: "A4", batchLabel: "箱12" })).resolves.toBeInstanceOf(Buffer);
    await expect(frameCard({ paper: "A4", printScale: { x: 0, y: 1 } })).rejects.toThrow(/printScale\.x/);
  });
});
