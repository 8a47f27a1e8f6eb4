import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  change,
  clinicEntry,
  clinicId,
  day,
  entry,
  instant,
  now,
  round,
  type SamplePerson,
  samplePerson,
} from "../../../test/record/samples.ts";
import { type ProtocolKey, protocolDefinition } from "../../domain/protocol/index.ts";
import type { BodyOf, Entry } from "../entry/index.ts";
import { openSqlite, type RecordStore } from "../store/index.ts";
import { clinicStory } from "../story/index.ts";
import { todayList } from "./index.ts";

const dayMs = 86_400_000;
const today = "2026-11-25";

function ago(days: number): string {
  return new Date(now - days * dayMs).toISOString().slice(0, 10);
}

async function storeWith(...entries: Entry[]): Promise<RecordStore> {
  const store = await openSqlite(":memory:");
  await store.append([clinicEntry(), ...entries]);
  return store;
}

async function listOf(store: RecordStore) {
  return todayList(store, clinicStory(await store.clinicEntries(clinicId))!, now);
}

function since(days: number): BodyOf<"stoma">["surgeryOn"] {
  return { date: ago(days), precision: "day" };
}

function measuredAgo(person: SamplePerson, days: number): Entry {
  return entry("measured", round(30), { ...person.about, at: day(ago(days)) });
}

function leaksAgo(person: SamplePerson, ...days: number[]): Entry[] {
  return days.map((back) =>
    entry("changed", change("leakPastEdge"), {
      ...person.about,
      at: instant(new Date(now - back * dayMs).toISOString()),
    }),
  );
}

describe("the list for today", () => {
  it("names who is overdue, with what to do and the value behind it, and counts the others", async () => {
    const [due, fine] = [
      samplePerson({}, { surgeryOn: since(20) }),
      samplePerson({}, { surgeryOn: since(20) }),
    ];
    const store = await storeWith(...due.entries, ...fine.entries, measuredAgo(due, 9), measuredAgo(fine, 2));
    const list = await listOf(store);
    expect(list).toMatchObject({ on: today, others: 1 });
    expect(list.lines).toMatchObject([
      {
        person: { personId: due.personId },
        level: "nextContact",
        reasons: [
          {
            code: "measureDue",
            params: { overdueDays: 2 },
            protocol: [{ key: "measureEveryDaysNew", value: 7 }],
          },
        ],
      },
    ]);
    await store.close();
  });

  it.each(["died", "movedAway", "admitted"] as const)(
    "asks nothing more of somebody who %s",
    async (what) => {
      const person = samplePerson({}, { surgeryOn: since(40) });
      const event = entry("event", { what }, { personId: person.personId, at: day(ago(1)) });
      const store = await storeWith(...person.entries, ...leaksAgo(person, 9, 5, 4, 3));
      expect((await listOf(store)).lines).toHaveLength(1);
      await store.append([event]);
      expect(await listOf(store)).toMatchObject({ lines: [], others: 0 });
      await store.close();
    },
  );

  it("still names a stoma that was new at its last reading and has been forgotten since", async () => {
    const person = samplePerson({}, { surgeryOn: since(70) });
    const store = await storeWith(...person.entries, measuredAgo(person, 20));
    expect((await listOf(store)).lines).toMatchObject([
      {
        reasons: [
          { code: "measureDue", params: { overdueDays: 13 }, protocol: [{ key: "measureEveryDaysNew" }] },
        ],
      },
    ]);
    await store.close();
  });

  it("takes somebody up again who was discharged, and drops a stoma that was reversed", async () => {
    const person = samplePerson({}, { surgeryOn: since(40) });
    const about = { personId: person.personId };
    const store = await storeWith(
      ...person.entries,
      entry("event", { what: "admitted" }, { ...about, at: day(ago(3)) }),
      entry("event", { what: "discharged" }, { ...about, at: day(ago(1)) }),
    );
    expect((await listOf(store)).lines).toHaveLength(1);
    await store.append([entry("event", { what: "reversed" }, { ...person.about, at: day(ago(0)) })]);
    expect((await listOf(store)).lines).toHaveLength(0);
    await store.close();
  });

  it("follows a changed protocol at once: nothing is kept of an old verdict", async () => {
    const person = samplePerson({}, { surgeryOn: since(20) });
    const store = await storeWith(...person.entries, measuredAgo(person, 9));
    const set = (value: number) =>
      entry(
        "protocolSet",
        { key: "measureEveryDaysNew", value },
        { reason: "weekly visits", at: day(today) },
      );
    await store.append([set(14)]);
    expect((await listOf(store)).lines).toHaveLength(0);
    await store.append([set(7)]);
    expect((await listOf(store)).lines).toHaveLength(1);
    await store.close();
  });

  it("puts the most urgent first, and of those who has waited longest", async () => {
    const people = [3, 9, 6].map((overdue) => {
      const person = samplePerson({ name: `overdue ${overdue}` }, { surgeryOn: since(40) });
      return [...person.entries, measuredAgo(person, 7 + overdue)];
    });
    const tight = samplePerson({ name: "tight" }, { surgeryOn: since(40) });
    const opening: BodyOf<"cut"> = { opening: { guide: { shape: "round", diameterMm: 28 } }, how: "byHand" };
    const store = await storeWith(
      ...people.flat(),
      ...tight.entries,
      measuredAgo(tight, 1),
      entry("cut", opening, { ...tight.about, at: day(ago(1)) }),
    );
    const { lines } = await listOf(store);
    expect(lines.map(({ person }) => person.name)).toEqual(["tight", "overdue 9", "overdue 6", "overdue 3"]);
    expect(lines[0]).toMatchObject({ level: "sameDay", reasons: [{ code: "openingTooSmall" }] });
    await store.close();
  });
});

/** Values that decide whom the list may name. */
const keys: ProtocolKey[] = [
  "newStomaDays",
  "measureEveryDaysNew",
  "measureEveryDaysSettled",
  "remindAheadDays",
  "maxGapMm",
  "shortWearCount",
  "shortWearWindowDays",
  "unplannedCount",
  "unplannedWindowDays",
];

const setting = fc.constantFrom(...keys).chain((key) => {
  const { min, max } = protocolDefinition(key);
  return fc.record({
    key: fc.constant(key),
    value: fc.integer({ min: Math.ceil(min), max: Math.floor(max) }),
  });
});

const anybody = fc
  .record({
    surgeryDaysAgo: fc.option(fc.integer({ min: 0, max: 200 }), { nil: undefined }),
    measuredDaysAgo: fc.array(fc.integer({ min: 0, max: 200 }), { maxLength: 3 }),
    openingMm: fc.option(fc.double({ min: 25, max: 45, noNaN: true }), { nil: undefined }),
    leaks: fc.array(fc.double({ min: 0, max: 40, noNaN: true }), { maxLength: 5 }),
    fitsUntilDaysAgo: fc.option(fc.integer({ min: -5, max: 10 }), { nil: undefined }),
    event: fc.option(fc.constantFrom("died", "admitted", "reversed"), { nil: undefined }),
  })
  .map((facts) => {
    const { surgeryDaysAgo, measuredDaysAgo, openingMm, leaks, event } = facts;
    const person = samplePerson(
      {},
      { surgeryOn: surgeryDaysAgo === undefined ? undefined : since(surgeryDaysAgo) },
    );
    const opening = (diameterMm: number): BodyOf<"cut"> => ({
      opening: { guide: { shape: "round", diameterMm } },
      how: "byHand",
    });
    const entries = [
      ...person.entries,
      ...measuredDaysAgo.map((days) => measuredAgo(person, days)),
      ...(openingMm === undefined
        ? []
        : [entry("cut", opening(openingMm), { ...person.about, at: day(ago(1)) })]),
      ...leaksAgo(person, ...leaks),
      ...(event ? [entry("event", { what: event }, { ...person.about, at: day(ago(0)) })] : []),
    ];
    return { ...facts, person, entries };
  });

describe("the search behind the list", () => {
  it("misses nobody whom a look at everybody would name, under any protocol", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(anybody, { minLength: 1, maxLength: 5 }),
        fc.array(setting, { maxLength: 5 }),
        async (people, settings) => {
          const store = await storeWith(
            ...people.flatMap(({ entries }) => entries),
            ...settings.map((body) => entry("protocolSet", body, { reason: "tried" })),
          );
          for (const { person, fitsUntilDaysAgo } of people) {
            if (fitsUntilDaysAgo === undefined) continue;
            const fitsUntilOn = ago(fitsUntilDaysAgo);
            const limits = { fitsUntilLowerOn: fitsUntilOn, fitsUntilUpperOn: fitsUntilOn };
            const fit = {
              stomaId: person.stomaId,
              fitsUntilOn,
              ...limits,
              programVersion: "1",
              protocolVersion: 0,
            };
            await store.saveFit(clinicId, fit, 1e9);
          }
          expect(reasonsIn(await listOf(store))).toEqual(reasonsIn(await listOf(lookingAtEverybody(store))));
          await store.close();
        },
      ),
      { numRuns: 40, seed: 31 },
    );
  }, 60_000);
});

function reasonsIn({ lines, others }: Awaited<ReturnType<typeof listOf>>) {
  return { others, lines: lines.map(({ stoma, level, reasons }) => [stoma.stomaId, level, reasons]) };
}

/** The same store, whose search finds every stoma that is asked after. */
function lookingAtEverybody(store: RecordStore): RecordStore {
  return new Proxy(store, {
    get(target, name) {
      if (name === "caseload") {
        return (id: string, limits: Parameters<RecordStore["caseload"]>[1]) =>
          target.caseload(id, {
            ...limits,
            newSince: "0001-01-01",
            newMeasuredBy: "9999-12-31",
            wearsSinceMs: 0,
          });
      }
      const member = Reflect.get(target, name);
      return typeof member === "function" ? member.bind(target) : member;
    },
  });
}
