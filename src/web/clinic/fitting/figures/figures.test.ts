import { describe, expect, it } from "vitest";
import { healingCurve } from "../../../../domain/healing/index.ts";
import { areaMm2, outlineOf } from "../../../../domain/outline/index.ts";
import { defaultProtocol } from "../../../../domain/protocol/index.ts";
import { inUseFigures, proposedFit } from "./fit.ts";
import type { Outlook } from "./useForecast.ts";
import { shortVerdict, verdictOf, warningsOf } from "./verdict.ts";
import { oneDecimal, rangeMm, whereBare, widestHour } from "./words.ts";

const stoma = outlineOf({ guide: { shape: "round", diameterMm: 31 } });

describe("both openings against the outline on the plate", () => {
  it("an opening an eighth of an inch larger across leaves 1.6 mm each side: never one figure without the other", () => {
    const { gapEachSideMm, holeAcrossMm } = inUseFigures(stoma, {
      shape: { guide: { shape: "round", diameterMm: 31 + 3.175 } },
      asCut: false,
    });
    expect(rangeMm(gapEachSideMm)).toBe("1.6 mm");
    expect(rangeMm(holeAcrossMm)).toBe("34.2 mm");
  });

  it("the proposed opening has the gap asked for and the hole twice that larger across", () => {
    const { proposed } = proposedFit(stoma, 2, null, defaultProtocol);
    expect(rangeMm(proposed!.gapEachSideMm)).toBe("2.0 mm");
    expect(rangeMm(proposed!.holeAcrossMm)).toBe("35.0 mm");
    // A ring between two circles: closed form.
    expect(proposed!.exposed.exposedSkinMm2).toBeCloseTo(Math.PI * (17.5 ** 2 - 15.5 ** 2), 0);
  });

  it("an opening whose place nobody knows lies with its centre on the stoma's; one cut from this reading where it was drawn", () => {
    const outline = outlineOf({ guide: { shape: "round", diameterMm: 35 } }).map(
      ([x, y]) => [x + 1, y] as [number, number],
    );
    expect(rangeMm(inUseFigures(stoma, { shape: { outline }, asCut: false }).gapEachSideMm)).toBe("2.0 mm");
    expect(rangeMm(inUseFigures(stoma, { shape: { outline }, asCut: true }).gapEachSideMm)).toBe(
      "1.0 to 3.0 mm",
    );
  });

  it("a gap over the protocol's value is warned of, and so is a barrier that is too small", () => {
    const system = {
      name: "drainable one-piece, flat",
      pieces: "one",
      closure: "drainable",
      barrier: "flat",
      opening: "cutToFit",
      maxOpeningMm: 34,
      barrierAcrossMm: 60,
    } as const;
    const codes = proposedFit(stoma, 4, system, defaultProtocol).reasons.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(["clearanceAboveUsual", "largerThanMaxOpening"]));
    const { barrier } = proposedFit(stoma, 2, system, defaultProtocol);
    expect(barrier!.leastLeftMm).toBeCloseTo(30 - 17.5, 1);
  });

  it("a gap so far below 0 that nothing is left proposes nothing", () => {
    const tiny = outlineOf({ guide: { shape: "round", diameterMm: 8 } });
    expect(proposedFit(tiny, -5, null, defaultProtocol).proposed).toBeNull();
  });
});

describe("where the bare skin lies", () => {
  it("round about evenly where the opening is centred", () => {
    const { exposed } = inUseFigures(stoma, {
      shape: { guide: { shape: "round", diameterMm: 36 } },
      asCut: false,
    });
    expect(whereBare(exposed)).toMatchObject({ where: "allRound" });
  });

  it("pushed to the person's left it lies at two to four o'clock, with most of its area", () => {
    const outline = outlineOf({ guide: { shape: "round", diameterMm: 35 } }).map(
      ([x, y]) => [x + 2, y] as [number, number],
    );
    const { exposed } = inUseFigures(stoma, { shape: { outline }, asCut: true });
    const bare = whereBare(exposed);
    expect(bare).toMatchObject({ where: "hours", fromHour: 2, toHour: 4 });
    expect(widestHour(exposed)).toBe(3);
    expect(bare.where === "hours" && bare.areaMm2 / bare.totalMm2).toBeGreaterThan(0.4);
    expect(bare.where === "hours" && bare.totalMm2).toBeCloseTo(areaMm2(outline) - areaMm2(stoma), 0);
  });

  it("hours run over twelve", () => {
    const byClockHour = Array.from({ length: 12 }, (_, i) => {
      const hour = i + 1;
      return { hour, areaMm2: hour === 12 ? 50 : 5, maxGapMm: 1, minGapMm: 1 };
    });
    expect(whereBare({ exposedSkinMm2: 105, byClockHour })).toMatchObject({ fromHour: 11, toHour: 1 });
  });

  it("nowhere at all is said too", () => {
    expect(whereBare({ exposedSkinMm2: 0, byClockHour: [] })).toEqual({ where: "nowhere" });
  });
});

describe("figures as they are written", () => {
  it("figures that round to the same are given once, with a true minus sign and no minus nought", () => {
    expect(rangeMm({ min: 1.96, max: 2.04 })).toBe("2.0 mm");
    expect(rangeMm({ min: -0.5, max: 1.25 })).toBe("−0.5 to 1.3 mm");
    expect(oneDecimal(-0.04)).toBe("0.0");
  });
});

describe("how long an opening fits, in words", () => {
  const readings = [
    [0, 40],
    [7, 36.5],
    [14, 34],
    [21, 32.5],
    [27, 31.5],
  ].map(([day, diameterMm]) => ({ day: day!, diameterMm: diameterMm!, method: "tracing" as const }));
  const outlook = (count: number, diameterMm: number, surgeryKnown = true): Outlook => {
    const curve = healingCurve({
      surgeryOn: "2026-10-29",
      readings: readings.slice(0, count),
      opening: { diameterMm },
    });
    return { ...curve, curves: [curve], clockStartOn: "2026-10-29", surgeryKnown };
  };
  const today = "2026-11-25";

  it("with enough readings: a day with its date, the 80 % range and how many readings it rests on", () => {
    const verdict = verdictOf(outlook(5, 36.8), 5, today);
    expect(verdict).toMatchObject({ kind: "until", passed: false });
    expect(verdict.kind === "until" && verdict.rangeWords).toMatch(
      /^80 % range: day \d+ (to \d+|or later), from 5 readings\.$/,
    );
    expect(shortVerdict(verdict, true, today, true)).toMatch(/^day \d+$/);
  });

  it("one that the stoma has outgrown has passed its day; a proposed one does not fit in the first place", () => {
    const verdict = verdictOf(outlook(5, 40), 5, today);
    expect(verdict).toMatchObject({ kind: "until", passed: true });
    expect(shortVerdict(verdict, true, today, false)).toMatch(/^passed, day \d+$/);
    expect(shortVerdict(verdict, true, today, true)).toBe("does not, by the curve");
  });

  it("one that most likely fits for good is never said to without the early limit of its range", () => {
    const verdict = verdictOf(outlook(5, 35), 5, today);
    expect(verdict).toMatchObject({ kind: "beyond", earliest: { day: expect.any(Number) } });
    expect(shortVerdict(verdict, true, today, true)).toMatch(/^day \d+ or later$/);
    const sure = { ...verdict, earliest: null } as typeof verdict;
    expect(shortVerdict(sure, true, today, true)).toMatch(/^beyond day \d+$/);
  });

  it("with too few readings: no day, and each reason once", () => {
    const few = outlook(2, 37);
    const verdict = verdictOf({ ...few, curves: [few.curves[0]!, few.curves[0]!] }, 2, today);
    expect(verdict.kind).toBe("unknown");
    expect(verdict.kind === "unknown" && verdict.why).toHaveLength(2);
    expect(shortVerdict(verdict, true, today, true)).toBe("not known yet");
  });

  it("where nobody knows the day of surgery, dates stand instead of days of recovery", () => {
    const verdict = verdictOf(outlook(5, 36.8, false), 5, today);
    expect(verdict.kind === "until" && verdict.rangeWords).not.toContain("day ");
    expect(shortVerdict(verdict, false, today, true)).toMatch(/^\d+ \w+/);
  });

  it("a size that rises is said as a warning", () => {
    const curve = healingCurve({
      surgeryOn: "2026-10-29",
      readings: [...readings, { day: 30, diameterMm: 39, method: "tracing" as const }],
    });
    const warnings = warningsOf({
      ...curve,
      curves: [curve],
      clockStartOn: "2026-10-29",
      surgeryKnown: true,
    });
    expect(warnings.join(" ")).toContain("hernia");
  });
});
