import { describe, expect, it } from "vitest";
import { defaultProtocol, protocolWith } from "../../domain/protocol/index.ts";
import { doubtsAboutMeasurement, lowHeightMm, type StomaType } from "./index.ts";

const ask = (
  [longest, narrowest]: [number, number],
  {
    heightMm,
    lastLongestMm,
    stomaType = "ileostomy",
  }: { heightMm?: number; lastLongestMm?: number; stomaType?: StomaType } = {},
) =>
  doubtsAboutMeasurement(
    { heightMm },
    [longest, narrowest],
    { stomaType, lastLongestMm },
    defaultProtocol,
  ).map(({ code }) => code);

describe("a measurement is asked about, never refused", () => {
  it.each([
    [[75, 75], {}, []],
    [[75.1, 75], {}, ["unusuallyLarge"]],
    [[120, 120], {}, ["unusuallyLarge"]],
    [[12, 12], {}, []],
    [[12, 11.9], {}, ["unusuallySmall"]],
    [[3, 3], {}, ["unusuallySmall"]],
    [[40, 40], { lastLongestMm: 30 }, []],
    [[40.1, 40], { lastLongestMm: 30 }, ["jump"]],
    [[19.9, 19], { lastLongestMm: 30 }, ["jump"]],
  ] as [[number, number], object, string[]][])("%j after %j", (extents, context, codes) => {
    expect(ask(extents, context)).toEqual(codes);
  });

  // Persson et al., Colorectal Disease 2010;12:971, as the facts read it: under 20 mm and under 5 mm.
  it.each([
    ["ileostomy", 19, ["lowHeight"]],
    ["ileostomy", 20, []],
    ["colostomy", 4, ["lowHeight"]],
    ["colostomy", 5, []],
    ["urostomy", -5, []],
  ] as [StomaType, number, string[]][])("%s of %i mm height", (stomaType, heightMm, codes) => {
    expect(ask([30, 30], { stomaType, heightMm })).toEqual(codes);
  });

  it("with the clinic's own limits, which each question names", () => {
    const protocol = protocolWith({ askDiameterAboveMm: 50 });
    const [doubt] = doubtsAboutMeasurement({}, [51, 51], { stomaType: "colostomy" }, protocol);
    expect(doubt?.text).toContain("ask above 50 mm");
  });

  it("knows no low height for a stoma that has no published limit", () => {
    expect(lowHeightMm("fistula", defaultProtocol)).toBeNull();
  });
});
