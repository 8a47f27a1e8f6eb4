import fc from "fast-check";
import { v7 as uuidv7 } from "uuid";
import { describe, expect, it } from "vitest";
import { engine, openTestStore } from "../../../test/record/engine.ts";
import {
  change,
  clinicEntry,
  clinicId,
  day,
  drainable,
  entry,
  instant,
  now,
  round,
  type SamplePerson,
  samplePerson,
} from "../../../test/record/samples.ts";
import { type ProtocolKey, protocolDefinition } from "../../domain/protocol/index.ts";
import type { BodyOf, Entry } from "../entry/index.ts";
import type { RecordStore } from "../store/index.ts";
import { clinicStory } from "../story/index.ts";
import { ZoneDays } from "./days.ts";
import { type Today, type TodayLine, todayList } from "./index.ts";
import { lineFor } from "./line.ts";
import { byPlace, placeOf } from "./order.ts";

const dayMs = 86_400_000;
const today = "2026-11-25";

function ago(days: number): string {
  return new Date(now - days * dayMs).toISOString().slice(0, 10);
}

async function storeWith(...entries: Entry[]): Promise<RecordStore> {
  const store = await openTestStore();
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

function wear(lastDays: number) {
  return fc.record({
    daysAgo: fc.double({ min: 0, max: lastDays, noNaN: true }),
    why: fc.constantFrom("planned", "leakPastEdge", "other"),
  });
}

/** Facts of one stoma. */
const anyStoma = fc.record({
  surgeryDaysAgo: fc.option(fc.integer({ min: 0, max: 200 }), { nil: undefined }),
  measuredDaysAgo: fc.array(fc.integer({ min: 0, max: 200 }), { maxLength: 3 }),
  openingMm: fc.option(fc.double({ min: 25, max: 45, noNaN: true }), { nil: undefined }),
  wears: fc.oneof(
    { arbitrary: fc.array(wear(40), { maxLength: 8 }), weight: 5 },
    { arbitrary: fc.array(wear(5), { minLength: 18, maxLength: 25 }), weight: 1 },
  ),
  system: fc.option(
    fc.record({
      closure: fc.constantFrom("drainable", "closed"),
      plannedIntervalDays: fc.option(fc.constantFrom(0.5, 2, 4), { nil: undefined }),
    }),
    { nil: undefined },
  ),
  fitsUntilDaysAgo: fc.option(fc.integer({ min: -5, max: 10 }), { nil: undefined }),
  event: fc.option(fc.constantFrom("died", "admitted", "reversed"), { nil: undefined }),
});

type Facts = typeof anyStoma extends fc.Arbitrary<infer T> ? T : never;

/** Somebody with one stoma or two, of a few names, so that some have the same. */
const anybody = fc
  .record({
    name: fc.constantFrom("Ada", "Bo", "Bo-Anne"),
    stomas: fc.array(anyStoma, { minLength: 1, maxLength: 2 }),
  })
  .map(({ name, stomas: [first, second] }) => {
    const person = samplePerson({ name }, { surgeryOn: surgeryOf(first!) });
    const other = { personId: person.personId, stomaId: uuidv7() };
    const entries = [...person.entries, ...entriesOf(first!, person.about)];
    if (second) {
      const made = { type: "urostomy", construction: "conduit", surgeryOn: surgeryOf(second) } as const;
      entries.push(entry("stoma", made, { ...other, at: day("2026-10-21") }), ...entriesOf(second, other));
    }
    const fits = [
      { stomaId: person.stomaId, daysAgo: first!.fitsUntilDaysAgo },
      { stomaId: other.stomaId, daysAgo: second?.fitsUntilDaysAgo },
    ];
    return { entries, fits };
  });

function surgeryOf({ surgeryDaysAgo }: Facts): BodyOf<"stoma">["surgeryOn"] {
  return surgeryDaysAgo === undefined ? undefined : since(surgeryDaysAgo);
}

function entriesOf(facts: Facts, about: SamplePerson["about"]): Entry[] {
  const { measuredDaysAgo, openingMm, wears, system, event } = facts;
  const opening = (diameterMm: number): BodyOf<"cut"> => ({
    opening: { guide: { shape: "round", diameterMm } },
    how: "byHand",
  });
  const fitted = (what: NonNullable<Facts["system"]>): BodyOf<"fitted"> => ({
    system: { ...drainable.system, closure: what.closure },
    plannedIntervalDays: what.plannedIntervalDays,
  });
  return [
    ...measuredDaysAgo.map((days) => entry("measured", round(30), { ...about, at: day(ago(days)) })),
    ...(openingMm === undefined ? [] : [entry("cut", opening(openingMm), { ...about, at: day(ago(1)) })]),
    ...(system ? [entry("fitted", fitted(system), { ...about, at: day(ago(60)) })] : []),
    ...wears.map(({ daysAgo, why }) =>
      entry("changed", change(why), { ...about, at: instant(new Date(now - daysAgo * dayMs).toISOString()) }),
    ),
    ...(event ? [entry("event", { what: event }, { ...aboutOf(event, about), at: day(ago(0)) })] : []),
  ];
}

/** A person dies or is admitted; a stoma is reversed. */
function aboutOf(event: NonNullable<Facts["event"]>, about: SamplePerson["about"]) {
  return event === "reversed" ? about : { personId: about.personId };
}

describe("the searches behind the list", () => {
  it("find whom a look at everybody would name, in that order, under any protocol, in pages of any length", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(anybody, { minLength: 1, maxLength: 5 }),
        fc.array(setting, { maxLength: 5 }),
        fc.integer({ min: 1, max: 4 }),
        async (people, settings, limit) => {
          const store = await storeWith(
            ...people.flatMap(({ entries }) => entries),
            ...settings.map((body) => entry("protocolSet", body, { reason: "tried" })),
          );
          for (const { stomaId, daysAgo } of people.flatMap(({ fits }) => fits)) {
            if (daysAgo !== undefined) await keepFit(store, stomaId, ago(daysAgo));
          }
          const everybody = await lookAtEverybody(store);
          const list = await listOf(store);
          expect(list.lines.map(asRead)).toEqual(everybody.lines.map(asRead));
          expect(list.people).toEqual(everybody.people);
          expect(list.others).toBe(everybody.others);
          expect((await inPages(store, limit)).map(asRead)).toEqual(everybody.lines.map(asRead));
          await store.close();
        },
      ),
      { numRuns: engine === "sqlite" ? 60 : 20, seed: 31 },
    );
  }, 60_000);

  it("count a wear from the midnight where the clinic is, on the day of a clock change too", async () => {
    const zone = "America/Santiago";
    // Midnight of 6 September 2026 does not exist there: clocks go from 24:00 to 1:00.
    const nowThere = Date.parse("2026-09-12T15:00:00Z");
    const ends = (text: string) => [
      entry("changed", change("leakPastEdge"), { ...person.about, at: instant(text, zone) }),
    ];
    const person = samplePerson({}, { surgeryOn: { date: "2026-08-01", precision: "day" } });
    const store = await openTestStore();
    await store.append([
      clinicEntry({ timeZone: zone }),
      ...person.entries,
      entry("measured", round(30), { ...person.about, at: day("2026-09-12") }),
      ...ends("2026-08-30T12:00:00Z"),
      ...ends("2026-09-06T03:59:59Z"),
      ...ends("2026-09-10T12:00:00Z"),
    ]);
    const story = clinicStory(await store.clinicEntries(clinicId))!;
    expect(await todayList(store, story, nowThere)).toMatchObject({ lines: [], people: { nextContact: 0 } });
    await store.append(ends("2026-09-06T04:00:00Z"));
    expect(await todayList(store, story, nowThere)).toMatchObject({
      lines: [{ reasons: [{ code: "unplannedChanges" }] }],
      people: { nextContact: 1 },
    });
    await store.close();
  });
});

async function keepFit(store: RecordStore, stomaId: string, fitsUntilOn: string): Promise<void> {
  const limits = { fitsUntilLowerOn: fitsUntilOn, fitsUntilUpperOn: fitsUntilOn };
  await store.saveFit(
    clinicId,
    { stomaId, fitsUntilOn, ...limits, programVersion: "1", protocolVersion: 0 },
    1e9,
  );
}

function asRead({ stoma, level, reasons }: TodayLine) {
  return [stoma.stomaId, level, reasons];
}

async function inPages(store: RecordStore, limit: number): Promise<TodayLine[]> {
  const story = clinicStory(await store.clinicEntries(clinicId))!;
  const lines: TodayLine[] = [];
  let after: string | null = null;
  do {
    const page: Today = await todayList(store, story, now, { after, limit });
    lines.push(...page.lines);
    after = page.next;
  } while (after !== null);
  return lines;
}

/** The list as it would be if somebody read everyone's facts. */
async function lookAtEverybody(store: RecordStore) {
  const story = clinicStory(await store.clinicEntries(clinicId))!;
  const { people } = await store.people(clinicId, { text: "", after: null, limit: 100 });
  const stomaIds = people.flatMap(({ stomas }) => stomas.map(({ stomaId }) => stomaId));
  const facts = await store.caseloadFacts(clinicId, stomaIds, 0);
  const lines = facts
    .map((row) => lineFor(row, story.protocol, new ZoneDays(story.details.timeZone), today))
    .filter((line) => line !== null)
    .sort((a, b) => byPlace(placeOf(a), placeOf(b)));
  const named = new Map<string, "sameDay" | "nextContact">();
  for (const { person, level } of lines) {
    if (!named.has(person.personId)) named.set(person.personId, level as "sameDay" | "nextContact");
  }
  const at = (level: string) => [...named.values()].filter((one) => one === level).length;
  const active = people.filter(({ standing }) => standing === "active").length;
  return {
    lines,
    people: { sameDay: at("sameDay"), nextContact: at("nextContact") },
    others: active - named.size,
  };
}
