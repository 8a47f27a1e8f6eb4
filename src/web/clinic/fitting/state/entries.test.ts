import { describe, expect, it } from "vitest";
import { outlineOf } from "../../../../domain/outline/index.ts";
import { defaultProtocol } from "../../../../domain/protocol/index.ts";
import { kinds } from "../../../../record/entry/index.ts";
import { clearanceOf, measuredBody, shapeToCorrect, usualClearance } from "./entries.ts";
import { type FittingAction, fittingReducer, startState } from "./fittingState.ts";
import { emptyShape, newTraced, outlineOfForm } from "./shapeForm.ts";

const written = (...actions: FittingAction[]) => actions.reduce(fittingReducer, startState("guide", 3.175));
const bodyOf = (...actions: FittingAction[]) => {
  const { body, wrong } = measuredBody(written(...actions));
  expect(wrong).toBeUndefined();
  // What the page writes is what the record takes.
  expect(kinds.measured.body.safeParse(body).success).toBe(true);
  return body!;
};
const sizes: FittingAction = { type: "guide", fields: { lengthMm: "31", widthMm: "28", tiltDeg: "12" } };
const handle: FittingAction = { type: "handle", hour: 4, radiusMm: 16, gesture: "drag.1" };

describe("a reading as the record takes it", () => {
  it("a guide reading keeps its ring and its step", () => {
    expect(
      bodyOf(sizes, { type: "details", fields: { heightMm: "18", posture: "lying", note: " soft " } }),
    ).toEqual({
      method: "guide",
      shape: { guide: { shape: "oval", lengthMm: 31, widthMm: 28, tiltDeg: 12 } },
      stepMm: 3.175,
      heightMm: 18,
      posture: "lying",
      note: "soft",
    });
  });

  it("a ring that was adjusted by hand is no ring any more, and says where it came from", () => {
    const body = bodyOf(sizes, handle);
    expect(body.method).toBe("typed");
    expect(body.stepMm).toBeUndefined();
    expect(body.source).toBe("From a guide reading of 31 × 28 mm, adjusted by hand");
    expect(() => outlineOf(body.shape)).not.toThrow();
  });

  it("a height below the skin is negative, and one beyond all measure is asked for again", () => {
    expect(bodyOf(sizes, { type: "details", fields: { heightMm: "−3,5" } }).heightMm).toBe(-3.5);
    const { wrong } = measuredBody(written(sizes, { type: "details", fields: { heightMm: "1800" } }));
    expect(wrong!.heightMm).toContain("150 mm");
  });

  it("without a size it says what is missing for the way chosen", () => {
    const missing = (way: "guide" | "tracing" | "typed") =>
      measuredBody(written({ type: "way", way })).wrong!.shape;
    expect(missing("guide")).toContain("ring");
    expect(missing("tracing")).toContain("Draw");
    expect(missing("typed")).toContain("length and width");
  });

  it("a tracing says how it was placed and changed", () => {
    const line = outlineOf({ guide: { shape: "oval", lengthMm: 31, widthMm: 28, tiltDeg: 0 } });
    const traced = { ...newTraced(line, "SVG file, “stoma”", 2.4), smoothing: "little" as const };
    const placing = { turnDeg: 90, mirrored: true, scale: 1 };
    const body = bodyOf({ type: "traced", traced: { ...traced, placing } }, handle);
    expect(body.method).toBe("tracing");
    expect(body.source).toBe(
      "SVG file, “stoma”; ends 2.4 mm apart joined; smoothed a little; mirrored, traced from the skin side; turned 90°; adjusted by hand",
    );
  });
});

describe("a reading that is corrected opens as it would have been typed", () => {
  it.each([
    ["a guide's oval", [sizes]],
    ["a ring", [{ type: "guide", fields: { shape: "round", diameterMm: "28.5" } }]],
    [
      "a ruler's sizes",
      [
        { type: "way", way: "typed" },
        { type: "ruler", fields: { lengthMm: "31", widthMm: "28" } },
      ],
    ],
    ["an adjusted ring", [sizes, handle]],
  ] as [string, FittingAction[]][])("%s comes back unchanged", (_name, actions) => {
    const body = bodyOf(...actions);
    const state = { ...startState("guide", 1), shape: shapeToCorrect(body, emptyShape("guide", 1)) };
    expect(measuredBody(state).body).toMatchObject({ method: body.method, shape: body.shape });
    expect(measuredBody(state).body!.source).toBe(body.source);
    expect(outlineOfForm(state.shape).outline).toBeDefined();
  });
});

describe("the gap each side", () => {
  it("is the protocol's for the kind of output until another is typed", () => {
    expect(usualClearance("ileostomy", defaultProtocol).mm).toBe(defaultProtocol.clearanceLiquidMm);
    expect(usualClearance("urostomy", defaultProtocol).mm).toBe(defaultProtocol.clearanceLiquidMm);
    expect(usualClearance("colostomy", defaultProtocol).mm).toBe(defaultProtocol.clearanceFormedMm);
    expect(clearanceOf(null, 2)).toBe(2);
    expect(clearanceOf("1,5", 2)).toBe(1.5);
  });

  it("beyond 6 mm, or half-written, there is none", () => {
    expect([clearanceOf("6", 2), clearanceOf("6.1", 2), clearanceOf("", 2), clearanceOf("two", 2)]).toEqual([
      6,
      null,
      null,
      null,
    ]);
  });
});
