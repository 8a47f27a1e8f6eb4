import { describe, expect, it } from "vitest";
import { openingFor } from "../../../../domain/opening/index.ts";
import { areaMm2, outlineOf } from "../../../../domain/outline/index.ts";
import { storedOutline } from "./stored.ts";

describe("an outline as the record keeps it", () => {
  it.each([1.5, 2, 3.7])(
    "an opening of %s mm round an oval loses less than 0.01 mm² in a hundred",
    (clearanceMm) => {
      const stoma = { guide: { shape: "oval", lengthMm: 45, widthMm: 22, tiltDeg: 33 } } as const;
      const { scissorPath } = openingFor({ stoma, clearanceMm });
      const { outline } = storedOutline(scissorPath!);
      expect(() => outlineOf({ outline })).not.toThrow();
      expect(Math.abs(areaMm2(outline) / areaMm2(scissorPath!) - 1)).toBeLessThan(1e-4);
      expect(outline.length).toBeLessThan(2000);
    },
  );

  it("points that rounding would lay on one another are one", () => {
    const { outline } = storedOutline([
      [0, 0],
      [10, 0],
      [10.0001, 0.0001],
      [10, 10],
      [0.0002, 0.0003],
    ]);
    expect(outline).toEqual([
      [0, 0],
      [10, 0],
      [10, 10],
    ]);
  });
});
