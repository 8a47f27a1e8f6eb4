import { describe, expect, it } from "vitest";
import { areaMm2, outlineOf, type Point } from "../../../../domain/outline/index.ts";
import { type FittingAction, type FittingState, fittingReducer, startState } from "./fittingState.ts";
import { lineBeforeSmoothing, newTraced, outlineOfForm } from "./shapeForm.ts";

const led = (state: FittingState, ...actions: FittingAction[]) => actions.reduce(fittingReducer, state);
const guide = startState("guide", 1);
const oval = led(
  guide,
  { type: "guide", fields: { lengthMm: "31" } },
  { type: "guide", fields: { widthMm: "28,0" } },
);
const radius = (state: FittingState, at: Point) => {
  const { outline } = outlineOfForm(state.shape);
  const turn = Math.atan2(at[1], at[0]);
  return Math.max(
    ...outline!
      .filter(([x, y]) => Math.abs(Math.atan2(y, x) - turn) < 0.02)
      .map(([x, y]) => Math.hypot(x, y)),
  );
};

describe("a reading as it is written", () => {
  it("has no outline until its sizes are whole, and says nothing while a field is blank", () => {
    expect(outlineOfForm(guide.shape)).toEqual({ why: "" });
    expect(outlineOfForm(led(guide, { type: "guide", fields: { lengthMm: "31" } }).shape)).toEqual({
      why: "",
    });
  });

  it("takes a decimal comma or point, and says what is no size", () => {
    expect(areaMm2(outlineOfForm(oval.shape).outline!)).toBeCloseTo(
      areaMm2(outlineOf({ guide: { shape: "oval", lengthMm: 31, widthMm: 28, tiltDeg: 0 } })),
      9,
    );
    expect(outlineOfForm(led(oval, { type: "guide", fields: { widthMm: "wide" } }).shape).why).toContain(
      "not a number",
    );
    expect(outlineOfForm(led(oval, { type: "guide", fields: { widthMm: "2000" } }).shape).why).toContain(
      "200 mm",
    );
  });

  it("equal length and width are a circle, however the tilt stands", () => {
    const round = led(oval, { type: "guide", fields: { widthMm: "31", tiltDeg: "40" } });
    expect(outlineOfForm(round.shape).outline).toEqual(
      outlineOf({ guide: { shape: "round", diameterMm: 31 } }),
    );
  });

  it("each way keeps its own figures while another is looked at", () => {
    const there = led(oval, { type: "way", way: "typed" });
    expect(outlineOfForm(there.shape)).toEqual({ why: "" });
    expect(outlineOfForm(led(there, { type: "way", way: "guide" }).shape)).toEqual(outlineOfForm(oval.shape));
  });
});

describe("moving handles", () => {
  const drag = (radiusMm: number, gesture = "drag.1"): FittingAction => ({
    type: "handle",
    hour: 3,
    radiusMm,
    gesture,
  });

  it("a drag there and back leaves no trace: each step starts from where it was taken hold of", () => {
    const there = led(oval, drag(20), drag(9), drag(14));
    expect(radius(there, [1, 0])).toBeCloseTo(14, 2);
    expect(areaMm2(outlineOfForm(there.shape).outline!)).toBeCloseTo(
      areaMm2(outlineOfForm(oval.shape).outline!),
      2,
    );
  });

  it("a whole drag is one step back, and the next drag another", () => {
    const twice = led(oval, drag(16), drag(17), { type: "settled" }, drag(18, "drag.2"), drag(19, "drag.2"));
    expect(radius(twice, [1, 0])).toBeCloseTo(19, 2);
    const once = led(twice, { type: "undo" });
    expect(radius(once, [1, 0])).toBeCloseTo(17, 2);
    expect(led(once, { type: "undo" }).shape).toEqual(oval.shape);
  });

  it("a step back can be taken forward again, until something else is done", () => {
    const back = led(oval, drag(16), { type: "undo" });
    expect(radius(led(back, { type: "redo" }), [1, 0])).toBeCloseTo(16, 2);
    expect(led(back, drag(12, "drag.2")).future).toEqual([]);
    expect(led(guide, { type: "undo" }, { type: "redo" })).toEqual(guide);
  });

  it("new figures in a field lay the outline anew; the adjusted one is a step back", () => {
    const typed = led(oval, drag(16), { type: "guide", fields: { lengthMm: "33" } });
    expect(typed.shape.edited).toBeNull();
    expect(radius(led(typed, { type: "undo" }), [1, 0])).toBeCloseTo(16, 2);
  });

  it("typing in one field is one step back, as long as nothing comes between", () => {
    const typed = led(
      guide,
      { type: "guide", fields: { diameterMm: "3" } },
      { type: "guide", fields: { diameterMm: "31" } },
    );
    expect(led(typed, { type: "undo" }).shape).toEqual(guide.shape);
  });

  it("an outline of the record that is laid anew no longer says where it came from", () => {
    const origin = "Traced over a scan";
    const corrected = {
      ...oval,
      shape: { ...oval.shape, edited: outlineOfForm(oval.shape).outline!, origin },
    };
    expect(led(corrected, drag(16)).shape.origin).toBe(origin);
    expect(led(corrected, { type: "way", way: "typed" }).shape).toMatchObject({ origin: null, edited: null });
  });

  it("no more than fifty steps are kept", () => {
    const many = Array.from({ length: 80 }, (_, i) => drag(10 + i / 20, `drag.${i}`));
    expect(led(oval, ...many).past).toHaveLength(50);
  });

  it("nothing happens without an outline", () => {
    expect(led(guide, drag(16))).toEqual(guide);
  });
});

describe("a traced line", () => {
  const line = outlineOf({ guide: { shape: "oval", lengthMm: 30, widthMm: 20, tiltDeg: 0 } }).map(
    ([x, y]): Point => [x + 40, y - 7],
  );
  const traced = led(guide, { type: "traced", traced: newTraced(line, "Drawn on the screen", 0) });

  it("comes to lie with its centre on the plate's, whatever way was chosen before", () => {
    expect(traced.shape.way).toBe("tracing");
    expect(radius(traced, [0, 1])).toBeCloseTo(15, 1);
  });

  it("smoothed, the line as drawn stays to be shown", () => {
    expect(lineBeforeSmoothing(traced.shape)).toBeNull();
    const smooth = led(traced, { type: "tracing", change: { smoothing: "much" } });
    expect(lineBeforeSmoothing(smooth.shape)).toHaveLength(line.length);
  });

  it("a quarter turn lays its length across", () => {
    const turned = led(traced, {
      type: "tracing",
      change: { placing: { turnDeg: 90, mirrored: false, scale: 1 } },
    });
    expect(radius(turned, [1, 0])).toBeCloseTo(15, 1);
  });

  it("taken away, there is no outline", () => {
    expect(outlineOfForm(led(traced, { type: "traced", traced: null }).shape)).toEqual({ why: "" });
  });
});
