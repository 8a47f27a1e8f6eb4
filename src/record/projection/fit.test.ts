import { describe, expect, it } from "vitest";
import {
  clinicEntry,
  clinicId,
  day,
  entry,
  round,
  samplePerson,
  stomaOf,
  stored,
} from "../../../test/record/samples.ts";
import type { BodyOf, Entry, RecordedShape } from "../entry/index.ts";
import { programVersion } from "../programVersion.ts";
import { openSqlite } from "../store/index.ts";
import { clinicStory, healingOf, healingQuestion } from "../story/index.ts";
import { fitOf, refreshFits } from "./index.ts";

const clinic = clinicStory(stored([clinicEntry()]))!;
const person = samplePerson();

function tracing(lengthMm: number, widthMm: number): BodyOf<"measured"> {
  return { method: "tracing", shape: { guide: { shape: "oval", lengthMm, widthMm, tiltDeg: 30 } } };
}

function measured(on: string, body: BodyOf<"measured">): Entry {
  return entry("measured", body, { ...person.about, at: day(on) });
}

function cut(on: string, opening: RecordedShape): Entry {
  return entry("cut", { opening, how: "byHand" }, { ...person.about, at: day(on) });
}

const disc = (diameterMm: number): RecordedShape => ({ guide: { shape: "round", diameterMm } });

const shrinking = [
  measured("2026-10-24", tracing(40, 40)),
  measured("2026-10-31", tracing(36, 36)),
  measured("2026-11-07", tracing(34, 34)),
  measured("2026-11-14", tracing(33, 33)),
];

describe("the day an opening stops fitting", () => {
  it("is not named without an opening, or with too few readings", () => {
    const bare = { fitsUntilOn: null, fitsUntilLowerOn: null, fitsUntilUpperOn: null };
    expect(fitOf(stomaOf(person.entries), clinic)).toMatchObject(bare);
    expect(fitOf(stomaOf([...person.entries, ...shrinking]), clinic)).toMatchObject(bare);
    const few = [...person.entries, ...shrinking.slice(0, 2), cut("2026-10-31", disc(40))];
    expect(fitOf(stomaOf(few), clinic)).toMatchObject(bare);
  });

  it("lies between its limits, and says under which program and protocol it was found", () => {
    const fit = fitOf(stomaOf([...person.entries, ...shrinking, cut("2026-11-07", disc(38.5))]), clinic);
    expect(fit).toMatchObject({ stomaId: person.stomaId, programVersion, protocolVersion: 0 });
    expect(fit.fitsUntilOn! >= fit.fitsUntilLowerOn!).toBe(true);
    expect(fit.fitsUntilUpperOn === null || fit.fitsUntilUpperOn >= fit.fitsUntilOn!).toBe(true);
  });

  it("comes later for a smaller opening, and never before the opening was cut", () => {
    const until = (diameterMm: number) =>
      fitOf(stomaOf([...person.entries, ...shrinking, cut("2026-11-14", disc(diameterMm))]), clinic)
        .fitsUntilOn;
    expect(until(60)).toBe("2026-11-14");
    const [smaller, larger] = [until(38), until(39)];
    expect(smaller === null || smaller >= larger!).toBe(true);
  });

  it("is decided by whichever extent of an oval fails first", () => {
    const oval = [40, 36, 34, 33].map((lengthMm, index) =>
      measured(`2026-${index < 2 ? "10" : "11"}-${["24", "31", "07", "14"][index]}`, tracing(lengthMm, 25)),
    );
    const opening: RecordedShape = { guide: { shape: "oval", lengthMm: 38, widthMm: 60, tiltDeg: 30 } };
    const stoma = stomaOf([...person.entries, ...oval, cut("2026-11-14", opening)]);
    expect(healingQuestion(stoma)?.across).toBe("two");
    expect(fitOf(stoma, clinic).fitsUntilOn).toBe("2026-11-14");
  });
});

describe("what is asked of the healing curve", () => {
  it("is one size where every reading and the opening are round", () => {
    const stoma = stomaOf([...person.entries, ...shrinking]);
    const question = healingQuestion(stoma);
    expect(question).toMatchObject({ across: "one", clockStartOn: "2026-10-20", surgeryKnown: true });
    expect(question?.across === "one" && question.input.readings.map(({ day: on }) => on)).toEqual([
      4, 11, 18, 25,
    ]);
    expect(healingOf(stoma, clinic.protocol)).toMatchObject({ narrowest: null, fitsUntilDay: null });
  });

  it("gives a guide's own step, or leaves it to the protocol", () => {
    const guide = (stepMm?: number) =>
      healingQuestion(stomaOf([...person.entries, measured("2026-11-01", { ...round(32), stepMm })]));
    expect(guide(1)).toMatchObject({ input: { readings: [{ method: "guide", stepMm: 1 }] } });
    expect(guide()).toMatchObject({ input: { readings: [{ method: "guide" }] } });
    expect(guide()).not.toHaveProperty("input.readings.0.stepMm");
  });

  it("counts from the first entry where nobody knows the day of surgery, and says so", () => {
    const unknown = samplePerson({}, { surgeryOn: undefined });
    const stoma = stomaOf([
      ...unknown.entries,
      entry("measured", round(32), { ...unknown.about, at: day("2026-10-05") }),
    ]);
    expect(healingQuestion(stoma)).toMatchObject({ clockStartOn: "2026-10-05", surgeryKnown: false });
  });

  it("is nothing without a reading", () => {
    expect(healingQuestion(stomaOf(person.entries))).toBeNull();
    expect(healingOf(stomaOf(person.entries), clinic.protocol)).toBeNull();
  });

  it("may be about another opening than the one in use", () => {
    const stoma = stomaOf([...person.entries, ...shrinking, cut("2026-11-14", disc(38))]);
    expect(healingQuestion(stoma, disc(45))).toMatchObject({ input: { opening: { diameterMm: 45 } } });
    expect(healingQuestion(stoma, null)).not.toHaveProperty("input.opening.diameterMm");
  });
});

describe("refreshing", () => {
  async function storeWith(people: number) {
    const store = await openSqlite(":memory:");
    const many = Array.from({ length: people }, () => samplePerson());
    await store.append([clinicEntry(), ...many.flatMap(({ entries }) => entries)]);
    return store;
  }
  const version = { programVersion, protocolVersion: 0 };

  it("makes every stale fit anew, once", async () => {
    const store = await storeWith(3);
    const seen: [number, number][] = [];
    expect(await refreshFits(store, clinic, { onProgress: (...at) => seen.push(at) })).toEqual({
      refreshed: 3,
      left: false,
    });
    expect(seen).toEqual([
      [1, 3],
      [2, 3],
      [3, 3],
    ]);
    expect(await store.staleFits(clinicId, version, 10)).toEqual([]);
    expect(await refreshFits(store, clinic)).toEqual({ refreshed: 0, left: false });
    await store.close();
  });

  it("stops at its limit, or when told to, and says that some are left", async () => {
    const store = await storeWith(3);
    expect(await refreshFits(store, clinic, { limit: 2 })).toEqual({ refreshed: 2, left: true });
    const stop = new AbortController();
    stop.abort();
    expect(await refreshFits(store, clinic, { signal: stop.signal })).toEqual({ refreshed: 0, left: true });
    expect(await refreshFits(store, clinic, { limit: 5 })).toEqual({ refreshed: 1, left: false });
    await store.close();
  });
});
