import { v7 } from "uuid";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  clinicEntry,
  clinicId,
  day,
  drainable,
  entry,
  now,
  nurse,
  round,
  samplePerson,
  stored,
  storyOf,
} from "../../../test/record/samples.ts";
import { exposedSkin } from "../../domain/exposed/index.ts";
import { InputError } from "../../domain/fault.ts";
import type { BodyOf, Entry } from "../../record/entry/index.ts";
import { openSqlite, type RecordStore } from "../../record/store/index.ts";
import { clinicStory } from "../../record/story/index.ts";
import { adviseCuttingSheet, type SheetOrder, sheetFromRecord } from "./index.ts";

const person = samplePerson({}, { construction: "loop", side: "right" });
const { about, personId, stomaId } = person;
const traced = (mm: number): BodyOf<"measured"> => ({
  method: "tracing",
  shape: { guide: { shape: "round", diameterMm: mm } },
});
const measured = (on: string, body: BodyOf<"measured"> = round(32)) =>
  entry("measured", body, { ...about, at: day(on) });
const last = measured("2026-11-24");
const basis = { on: "2026-11-25", by: nurse.name, demo: false };
const clinic = clinicStory(stored([clinicEntry()]))!;

function sheetFor(entries: readonly Entry[], order: Partial<SheetOrder> = {}) {
  const story = storyOf([...person.entries, ...entries]);
  const request = { personId, stomaId, adviceId: v7(), measuredId: last.id, clearanceMm: 2, ...order };
  return sheetFromRecord(story, clinic, request, basis);
}

function faultOf(entries: readonly Entry[], order: Partial<SheetOrder> = {}): string {
  try {
    sheetFor(entries, order);
  } catch (error) {
    if (error instanceof InputError) return `${error.faults[0]?.path} ${error.faults[0]?.problem}`;
    throw error;
  }
  return "";
}

describe("a sheet from the record", () => {
  it("is cut from the measurement, with the gap that was asked for", () => {
    const { sheet } = sheetFor([last]);
    expect(sheet.gapEachSideMm.min).toBeCloseTo(2, 2);
    expect(sheet.gapEachSideMm.max).toBeCloseTo(2, 2);
    expect(sheet.holeAcrossMm.min).toBeCloseTo(36, 2);
    expect(sheet.holeAcrossMm.max).toBeCloseTo(36, 2);
    const gap = exposedSkin({ stoma: { outline: sheet.stoma }, opening: { outline: sheet.scissorPath } });
    expect(gap.minGapMm).toBeGreaterThan(1.99);
  });

  it("names person, stoma, clinic, method and day", () => {
    expect(sheetFor([last]).sheet).toMatchObject({
      person: { name: "Edda Voss", birthDate: "1951-04-03", identifier: "R-1042" },
      stomaLabel: "Loop ileostomy, right side",
      clinic: { name: "Harbour Street stoma clinic", nursePhone: "01632 960 100" },
      method: "a guide reading of 24 November 2026",
      madeOn: "2026-11-25",
      dayOfRecovery: 36,
      by: nurse.name,
      sheetNumber: 1,
      replaces: undefined,
      demo: false,
      paper: "A4",
    });
  });

  it("says until when the opening fits once there are readings enough, and when to measure again", () => {
    const few = sheetFor([last]).sheet;
    expect(few.measureAgainOn).toBe("2026-12-01");
    expect([few.fitsUntil, few.fitsAtLeastUntil]).toEqual([undefined, undefined]);
    const readings = [
      measured("2026-11-03", traced(38)),
      measured("2026-11-10", traced(35)),
      measured("2026-11-17", traced(33)),
      entry("measured", traced(32), { ...about, at: day("2026-11-24"), id: last.id }),
    ];
    const { fitsUntil, measureAgainOn } = sheetFor(readings, { clearanceMm: 3 }).sheet;
    expect(fitsUntil!.on >= "2026-11-25").toBe(true);
    expect(fitsUntil!.lowerDay).toBeLessThanOrEqual(fitsUntil!.day);
    expect(fitsUntil!.upperDay).toBeGreaterThanOrEqual(fitsUntil!.day);
    expect(measureAgainOn! <= "2026-12-01").toBe(true);
  });

  it("says at least until when it fits where a settled stoma may never outgrow it", () => {
    const readings = [
      measured("2026-10-27", traced(32)),
      measured("2026-11-03", traced(32)),
      measured("2026-11-10", traced(32)),
      measured("2026-11-17", traced(32)),
      entry("measured", traced(32), { ...about, at: day("2026-11-24"), id: last.id }),
    ];
    const { sheet, body } = sheetFor(readings, { clearanceMm: 2 });
    expect(sheet.fitsUntil).toBeUndefined();
    expect(sheet.fitsAtLeastUntil!.on >= "2026-11-25").toBe(true);
    expect(body.words.join(" ")).toContain("at least until");
  });

  it("leaves out days of recovery where the day of surgery is not known to the day", () => {
    const vague = samplePerson({}, { surgeryOn: { date: "2026-10-01", precision: "month" } });
    const reading = entry("measured", round(32), { ...vague.about, at: day("2026-11-24") });
    const story = storyOf([...vague.entries, reading]);
    const request = { ...vague.about, adviceId: v7(), measuredId: reading.id, clearanceMm: 2 };
    const { sheet } = sheetFromRecord(story, clinic, request, basis);
    expect([sheet.dayOfRecovery, sheet.fitsUntil, sheet.measureAgainOn]).toEqual([
      undefined,
      undefined,
      "2026-12-01",
    ]);
  });

  it("never asks to measure again on a day that is over", () => {
    const old = measured("2026-11-04");
    expect(sheetFor([old], { measuredId: old.id }).sheet.measureAgainOn).toBe("2026-11-25");
  });

  it("keeps what it rests on and the words that were shown", () => {
    const { body, sheet } = sheetFor([measured("2026-11-17"), last]);
    expect(body).toMatchObject({
      what: "cuttingSheet",
      sheetNumber: 1,
      protocolVersion: 0,
      clearanceMm: 2,
      measuredId: last.id,
    });
    expect(body.from).toHaveLength(3);
    expect(body.from[0]).toBe(last.id);
    expect(body.words).toContain(`Cut from ${sheet.method}.`);
    expect(body.words).toContain("Hole across 36.0 mm; gap each side 2.0 mm, 2.0 mm was asked for.");
  });
});

describe("a sheet is refused", () => {
  it("for a measurement that is not there, or that was corrected or taken back", () => {
    expect(faultOf([last], { measuredId: v7() })).toBe("measuredId names no measurement of this stoma");
    const correction = entry("measured", round(33), {
      ...about,
      at: day("2026-11-24"),
      corrects: { id: last.id, as: "replace" },
      reason: "misread",
    });
    expect(faultOf([last, correction])).toBe("measuredId was corrected or taken back");
    expect(faultOf([last, correction], { measuredId: correction.id })).toBe("");
  });

  it("where the barrier in use may not be cut that wide, or has a hole of its own that is wider", () => {
    const system = (more: object) =>
      entry("fitted", { system: { ...drainable.system, ...more } }, { ...about, at: day("2026-11-01") });
    expect(faultOf([last, system({ maxOpeningMm: 35 })])).toContain("cannot be cut for from this system");
    expect(faultOf([last, system({ starterHoleMm: 40 })])).toContain("cannot be cut for from this system");
    expect(faultOf([last, system({ maxOpeningMm: 36.1 })])).toBe("");
  });

  it("not where little barrier is left: the nurse is told and decides", () => {
    const narrow = entry(
      "fitted",
      { system: { ...drainable.system, barrierAcrossMm: 50 } },
      { ...about, at: day("2026-11-01") },
    );
    expect(sheetFor([last, narrow]).body.words.join(" ")).toContain(
      "mm of barrier is left outside the opening",
    );
  });

  it("where it would cut into the stoma as it was measured since, and not where it clears it", () => {
    const old = measured("2026-11-10", traced(30));
    expect(faultOf([old, measured("2026-11-24", traced(36))], { measuredId: old.id })).toBe(
      "measuredId would cut into the stoma as it was measured since",
    );
    expect(faultOf([old, measured("2026-11-24", traced(33))], { measuredId: old.id })).toBe("");
  });
});

describe("giving a sheet", () => {
  let store: RecordStore;
  beforeEach(async () => {
    store = await openSqlite(":memory:");
    await store.append([clinicEntry(), ...person.entries, last]);
  });
  afterEach(() => store.close());

  const author = { author: nurse, nowMs: now, demo: false };
  const order = { personId, stomaId, measuredId: last.id, clearanceMm: 2 };
  const give = (adviceId: string, more: Partial<SheetOrder> = {}) =>
    adviseCuttingSheet(store, clinicId, { ...order, adviceId, ...more }, author);

  it("writes down that it was given, once, and draws the same sheet again", async () => {
    const adviceId = v7();
    const first = await give(adviceId, { paper: "Letter", printScale: { x: 0.99, y: 1 } });
    expect(first.pdf.subarray(0, 5).toString()).toBe("%PDF-");
    expect(first.entry).toMatchObject({
      id: adviceId,
      kind: "advised",
      by: nurse,
      body: { sheetNumber: 1, paper: "Letter" },
    });
    await store.append([
      entry("measured", traced(30), { ...about, at: day("2026-11-25") }),
      entry("protocolSet", { key: "maxGapMm", value: 5 }, { reason: "ours" }),
    ]);
    await give(v7());
    const again = await give(adviceId);
    expect(again.sheet).toEqual(first.sheet);
    expect(again.entry).toEqual(first.entry);
    expect(again.pdf.equals(first.pdf)).toBe(true);
    const entries = await store.entriesOfPerson(clinicId, personId);
    expect(entries.filter(({ kind }) => kind === "advised")).toHaveLength(2);
  });

  it("numbers the sheets of a stoma and makes the one before void, also when one was taken back", async () => {
    await give(v7());
    const second = await give(v7());
    expect(second.sheet).toMatchObject({
      sheetNumber: 2,
      replaces: { sheetNumber: 1, madeOn: "2026-11-25" },
    });
    await store.append([
      entry("advised", second.entry.body, {
        ...about,
        corrects: { id: second.entry.id, as: "retract" },
        reason: "never handed out",
      }),
    ]);
    expect((await give(v7())).sheet).toMatchObject({ sheetNumber: 3, replaces: { sheetNumber: 1 } });
  });

  it("under an id that is taken by other advice is refused", async () => {
    const adviceId = v7();
    await give(adviceId);
    await expect(give(adviceId, { clearanceMm: 3 })).rejects.toMatchObject({ code: "idReused" });
    await expect(give(last.id)).rejects.toMatchObject({ code: "idReused" });
  });

  it("that cannot be drawn writes nothing down", async () => {
    const huge = entry("measured", traced(200), { ...about, at: day("2026-11-25") });
    await store.append([huge]);
    await expect(give(v7(), { measuredId: huge.id })).rejects.toBeInstanceOf(InputError);
    const entries = await store.entriesOfPerson(clinicId, personId);
    expect(entries.filter(({ kind }) => kind === "advised")).toEqual([]);
  });
});
