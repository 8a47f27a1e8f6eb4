import { describe, expect, it } from "vitest";
import { printScaleLimits } from "../../../../documents/drawing/paper.ts";
import { defaultProtocol } from "../../../../domain/protocol/index.ts";
import { asTyped, correctionFor, readBars, scaleLimits, togetherWith } from "./bars.ts";

const tolerance = defaultProtocol.barTolerancePercent;
const read = (across: string, upright: string) => readBars({ across, upright }, tolerance);

describe("what a printer's bars say", () => {
  it("99.5 to 100.5 mm needs no correction, by the protocol", () => {
    for (const [across, upright] of [
      ["100", "100"],
      ["99.5", "100.5"],
      ["99,5", "99,5"],
    ]) {
      expect(read(across!, upright!)).toMatchObject({ said: "true" });
      expect(correctionFor(read(across!, upright!))).toBeUndefined();
    }
  });

  it("anything further off is made up for, each way by itself", () => {
    expect(correctionFor(read("97", "100"))).toEqual({ x: 0.97, y: 1 });
    expect(read("99.4", "100")).toMatchObject({ said: "off" });
  });

  it("A4 fitted onto Letter (94.1 mm) can be made up for; what no printer does is refused", () => {
    expect(read("94.1", "94.1")).toMatchObject({ said: "off" });
    for (const absurd of ["50", "10", "1000", "0", "-100"]) expect(read(absurd, "100").said).toBe("absurd");
  });

  it("the server refuses at the same limits", () => {
    expect(scaleLimits).toEqual(printScaleLimits);
  });

  it("both bars or none", () => {
    expect([read("", "").said, read("100", "").said, read("", "100").said, read("ten", "100").said]).toEqual([
      "nothing",
      "unreadable",
      "unreadable",
      "unreadable",
    ]);
  });

  it("bars on a sheet that was already corrected say what is left: both together are the printer", () => {
    const printer = togetherWith({ x: 0.97, y: 1 }, { x: 1.01, y: 0.99 });
    expect(printer.x).toBeCloseTo(0.9797, 9);
    expect(printer.y).toBeCloseTo(0.99, 9);
    expect(togetherWith(undefined, { x: 0.98, y: 1 })).toEqual({ x: 0.98, y: 1 });
  });

  it("a kept scale is shown as the ruler said it", () => {
    expect(asTyped({ x: 0.985, y: 1 })).toEqual({ across: "98.5", upright: "100" });
    expect(asTyped(null)).toEqual({ across: "", upright: "" });
  });
});
