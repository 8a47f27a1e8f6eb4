import { describe, expect, it } from "vitest";
import { openingFor } from "../../../../domain/opening/index.ts";
import { dimensionsOf, outlineOf } from "../../../../domain/outline/index.ts";
import { defaultProtocol } from "../../../../domain/protocol/index.ts";
import { kinds, type RecordedShape } from "../../../../record/entry/index.ts";
import { type CutHow, cutShape } from "./cutShape.ts";

const from = (shape: RecordedShape, clearanceMm: number) => {
  const stoma = outlineOf(shape);
  const { scissorPath } = openingFor({ stoma: { outline: stoma }, clearanceMm });
  return { stoma, stomaShape: shape, opening: scissorPath!, clearanceMm };
};
const cut = (how: CutHow, shape: RecordedShape, clearanceMm = 2, preCutMm = 0) => {
  const made = cutShape(how, from(shape, clearanceMm), preCutMm, defaultProtocol);
  expect(kinds.cut.body.safeParse({ ...made, how }).success).toBe(true);
  return made;
};
const ring: RecordedShape = { guide: { shape: "round", diameterMm: 31 } };
const oval: RecordedShape = { guide: { shape: "oval", lengthMm: 31, widthMm: 28, tiltDeg: 12 } };

describe("an opening put into use", () => {
  it("round a ring is round and keeps its exact size", () => {
    expect(cut("sheet", ring)).toEqual({
      opening: { guide: { shape: "round", diameterMm: 35 } },
      clearanceMm: 2,
    });
  });

  it("round an oval is the line that is cut: 2 mm more on every side", () => {
    const { opening, clearanceMm } = cut("byHand", oval);
    const { feretMaxMm, feretMinMm } = dimensionsOf(outlineOf(opening));
    expect(clearanceMm).toBe(2);
    expect(feretMaxMm).toBeCloseTo(35, 1);
    expect(feretMinMm).toBeCloseTo(32, 1);
  });

  it("moulded, it lies at the stoma's edge whatever gap was asked for", () => {
    expect(cut("moulded", oval)).toEqual({ opening: oval, clearanceMm: 0 });
  });

  it("pre-cut, it is as large as its box says, and no gap was meant", () => {
    expect(cut("preCut", oval, 2, 35)).toEqual({ opening: { guide: { shape: "round", diameterMm: 35 } } });
  });

  it("where scissors cannot follow a very small ring, the line they follow is kept", () => {
    expect("outline" in cut("sheet", { guide: { shape: "round", diameterMm: 4 } }, 0.5).opening).toBe(true);
  });
});
