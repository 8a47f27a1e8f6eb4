import { describe, expect, it } from "vitest";
import { day, entry, now, round, samplePerson, stomaOf, zone } from "../../../../../test/record/samples.ts";
import { defaultProtocol } from "../../../../domain/protocol/index.ts";
import type { BodyOf, Entry } from "../../../../record/entry/index.ts";
import { healingOf } from "../../../../record/story/index.ts";
import { outlookOf } from "../outlook.ts";
import { mattersOf } from "./mattersOf.ts";
import { nextSteps } from "./nextSteps.ts";

const today = "2026-11-25";
const protocol = defaultProtocol;

function told(entries: Entry[]) {
  const stoma = stomaOf(entries);
  const healing = healingOf(stoma, protocol);
  const outlook = outlookOf(stoma, healing, { protocol, zone, today, nowMs: now });
  return {
    outlook,
    matters: mattersOf(stoma, outlook, today),
    steps: nextSteps(stoma, outlook, protocol, today).map((step) => step.replaceAll("\u00a0", " ")),
  };
}

const person = samplePerson();
const measured = (on: string, body: BodyOf<"measured">) =>
  entry("measured", body, { ...person.about, at: day(on) });
const cut = (on: string, diameterMm: number) =>
  entry(
    "cut",
    { opening: { guide: { shape: "round", diameterMm } }, how: "sheet" },
    { ...person.about, at: day(on) },
  );

const shrinking = [
  measured("2026-10-24", round(41)),
  measured("2026-10-31", round(38)),
  measured("2026-11-07", round(35)),
  measured("2026-11-14", round(33)),
  measured("2026-11-21", round(32)),
];

describe("what matters", () => {
  it("is first that the opening leaves too much skin bare, with the protocol value", () => {
    const { matters, steps } = told([...person.entries, ...shrinking, cut("2026-10-31", 42)]);
    expect(matters[0]).toMatchObject({
      code: "openingTooLarge",
      protocolValues: [{ key: "maxGapMm", value: protocol.maxGapMm }],
    });
    expect(matters[0]?.range).toMatch(/^By the curve it fits until day \d+, \d+ \w+; 80 % range: day \d+/);
    expect(steps[0]).toBe("Cut the new opening: 36.0 mm across, 2.0 mm each side.");
    expect(steps).toContain("Cut no barrier ahead.");
  });

  it("gives the days until which an opening fits with date, day and spread", () => {
    const { matters } = told([...person.entries, ...shrinking, cut("2026-11-21", 36)]);
    const fits = matters.find(({ code }) => code === "fitsUntil");
    expect(fits?.text).toMatch(/^The opening in use fits (until|beyond) day \d+, \d+ \w+/);
  });

  it("says why there is no forecast yet, instead of a curve through two points", () => {
    const { matters } = told([...person.entries, ...shrinking.slice(0, 2)]);
    expect(matters.map(({ code }) => code)).toContain("tooFewReadings");
  });

  it("asks for the first measurement where there is none", () => {
    const { steps } = told(person.entries);
    expect(steps).toContain("Measure for the first time.");
  });

  it("never asks for a day of recovery that nobody knows", () => {
    const undated = samplePerson({}, { surgeryOn: undefined });
    const entries = [
      ...undated.entries,
      ...shrinking.map((one) => ({ ...one, ...undated.about })),
    ] as Entry[];
    const { matters, steps } = told(entries);
    for (const sentence of [...matters.map(({ text }) => text), ...steps])
      expect(sentence).not.toMatch(/\bday \d/);
  });

  it("asks nothing of somebody who has died", () => {
    const died = entry("event", { what: "died" }, { personId: person.personId, at: day("2026-11-22") });
    const { matters, steps } = told([...person.entries, ...shrinking, cut("2026-10-31", 42), died]);
    expect(steps).toEqual([]);
    expect(matters.map(({ code }) => code)).not.toContain("openingTooLarge");
  });
});

describe("a sheet whose reading was corrected", () => {
  it("is named first, with what to do about it", () => {
    const first = measured("2026-11-20", round(36));
    const sheet = entry(
      "advised",
      {
        what: "cuttingSheet",
        sheetNumber: 4,
        measuredId: first.id,
        clearanceMm: 2,
        from: [first.id],
        protocolVersion: 0,
        programVersion: "0.0.1",
        words: [],
        paper: "A4",
      },
      { ...person.about, at: day("2026-11-21") },
    );
    const mended = entry("measured", round(31), {
      ...person.about,
      at: day("2026-11-20"),
      corrects: { id: first.id, as: "replace" },
      reason: "wrong ring read",
    });
    const { matters, steps } = told([...person.entries, first, sheet, mended]);
    expect(matters[0]).toMatchObject({ code: "sheetOvertaken" });
    expect(matters[0]!.text).toContain("Cutting sheet 4");
    expect(steps[0]).toBe("Print a new cutting sheet and ring: sheet 4 is to be thrown away.");
  });
});
