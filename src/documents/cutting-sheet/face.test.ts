import { describe, expect, it } from "vitest";
import { oval, round, sheetFor, traced } from "../../../test/printed/sheet.ts";
import { boundaryOf, dimensionsOf } from "../../domain/outline/index.ts";
import { faceOf, heavyLineMm } from "./face.ts";

const at = (face: ReturnType<typeof faceOf>, hour: number) =>
  face.hours.find((entry) => entry.hour === hour)!.at;

describe("the two faces", () => {
  it("are each other's mirror image about the line from head to foot", () => {
    const sheet = sheetFor(traced());
    const [skin, you] = [faceOf(sheet, "skin"), faceOf(sheet, "you")];
    const boundary = boundaryOf(you.scissorPath);
    for (const [x, y] of skin.scissorPath) expect(boundary.distanceMm(-x, y)).toBeLessThan(1e-9);
    expect(skin.centre[0]).toBeCloseTo(-you.centre[0], 9);
    expect(skin.centre[1]).toBeCloseTo(you.centre[1], 9);
  });

  it("show the outline as taken on the face you look at", () => {
    const shape = traced();
    expect(faceOf(sheetFor(shape), "you").scissorPath).toEqual(shape.opening);
  });

  it("have 3 o'clock at the person's left: right on paper for you, left on the skin side (facts: 3 is the person's left)", () => {
    const sheet = sheetFor(round(26));
    const [skin, you] = [faceOf(sheet, "skin"), faceOf(sheet, "you")];
    expect(at(you, 3)[0]).toBeGreaterThan(10);
    expect(at(skin, 3)[0]).toBeLessThan(-10);
  });

  it("change hours 1 and 11, 2 and 10, 4 and 8, 5 and 7; 6 and 12 stay (arithmetic: h' = 12 - h)", () => {
    const sheet = sheetFor(round(26));
    const [skin, you] = [faceOf(sheet, "skin"), faceOf(sheet, "you")];
    const mirrored = [11, 10, 9, 8, 7, 6, 5, 4, 3, 2, 1, 12];
    mirrored.forEach((onSkin, index) => {
      const [x, y] = at(you, index + 1);
      expect(at(skin, onSkin)[0]).toBeCloseTo(x, 6);
      expect(at(skin, onSkin)[1]).toBeCloseTo(y, 6);
    });
  });

  it("a symmetric opening looks the same on both, so its words must tell them apart", () => {
    const sheet = sheetFor(oval(36, 25, 0));
    const [skin, you] = [faceOf(sheet, "skin"), faceOf(sheet, "you")];
    const boundary = boundaryOf(you.scissorPath);
    for (const [x, y] of skin.scissorPath) expect(boundary.distanceMm(x, y)).toBeLessThan(0.01);
    expect(at(skin, 3)[0]).toBeCloseTo(-at(you, 3)[0], 2);
  });
});

describe("the lines of a face", () => {
  it("the heavy line is 0.3 mm wide and lies wholly outside the scissor path", () => {
    const { scissorPath, lineEdge } = faceOf(sheetFor(traced()), "you");
    const cut = boundaryOf(scissorPath);
    for (const [x, y] of lineEdge) expect(cut.signedGapMm(x, y)).toBeCloseTo(heavyLineMm, 2);
    expect(heavyLineMm).toBeLessThanOrEqual(0.3);
  });

  it("the ring stands at the barrier margin", () => {
    const { ring } = faceOf(sheetFor(round(26)), "skin");
    expect(dimensionsOf(ring).widthMm).toBeCloseTo(50, 1);
  });

  it("the hours stand on the barrier to keep, or round it where that is narrow", () => {
    const sheet = sheetFor(round(26));
    expect(at(faceOf(sheet, "you"), 3)[0]).toBeCloseTo(20, 1);
    const narrow = faceOf({ ...sheet, protocol: { ...sheet.protocol, barrierMarginMm: 4 } }, "you");
    expect(at(narrow, 3)[0]).toBeGreaterThan(15 + 4 + 2);
  });

  it("a stoma line that the cut runs along is left out, since it would only thicken the cut", () => {
    const shape = round(26, 0);
    expect(faceOf(sheetFor(shape), "you").stomaLines).toEqual([]);
    expect(faceOf(sheetFor(round(26, 2)), "you").stomaLines).toHaveLength(1);
  });

  it("the opening is drawn only where scissors leave it", () => {
    const shape = oval(36, 25, 0);
    const wider = oval(36, 25, 0, 3).opening;
    expect(faceOf(sheetFor(shape), "you").openingLines).toEqual([]);
    expect(faceOf(sheetFor(shape, { scissorPath: wider }), "you").openingLines).toHaveLength(1);
  });
});
