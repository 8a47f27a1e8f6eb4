import { beforeAll, describe, expect, it } from "vitest";
import type { Reason } from "../../domain/attention/index.ts";
import { acceptDrafts } from "../accept/index.ts";
import {
  constructions,
  dateOf,
  type Entry,
  instantAt,
  type PlainDate,
  type StoredEntry,
  stomaTypes,
} from "../entry/index.ts";
import { refreshFits } from "../projection/index.ts";
import { openSqlite } from "../store/index.ts";
import { clinicStory, type PersonStory, personStory, wornDays } from "../story/index.ts";
import { type Today, todayList } from "../today/index.ts";
import { demoClinicId, demoEntries, demoNurse } from "./index.ts";

const today = "2026-11-25";
const zone = "Europe/London";
const entries = demoEntries({ today, zone });
const people = storiesOf(entries);
const stomas = people.flatMap((person) => person.stomas);

function storiesOf(told: readonly Entry[]): PersonStory[] {
  const byPerson = new Map<string, StoredEntry[]>();
  for (const [index, entry] of told.entries()) {
    if (entry.personId === null) continue;
    const own = byPerson.get(entry.personId) ?? [];
    byPerson.set(entry.personId, [...own, { ...entry, cursor: index + 1 } as StoredEntry]);
  }
  return [...byPerson.values()].map((own) => personStory(own)!);
}

async function todayOf(on: PlainDate, inZone: string): Promise<Today> {
  const store = await openSqlite(":memory:");
  try {
    await store.append(demoEntries({ today: on, zone: inZone }));
    const clinic = clinicStory(await store.clinicEntries(demoClinicId))!;
    await refreshFits(store, clinic);
    return await todayList(store, clinic, Date.parse(instantAt(on, 9, 0, inZone)));
  } finally {
    await store.close();
  }
}

describe("the demo's entries", () => {
  it("pass every check that a nurse's own entries pass", async () => {
    const store = await openSqlite(":memory:");
    const drafts = entries.map(({ clinicId: _c, by: _b, recordedAt: _r, ...draft }) => draft);
    const nowMs = Date.parse(instantAt(today, 0, 1, zone));
    const clinic = { clinicId: demoClinicId, details: { timeZone: zone } };
    const taken = await acceptDrafts(store, clinic, drafts, { author: demoNurse, nowMs });
    expect(taken).toHaveLength(entries.length);
    await store.close();
  });

  it("are the same for the same seed, day and zone, and others for another seed", () => {
    expect(demoEntries({ today, zone })).toEqual(entries);
    expect(demoEntries({ today, zone, seed: 7 })).not.toEqual(entries);
  });

  it("all happened before today, were written down no earlier, and bear ids of their own", () => {
    for (const { at, recordedAt } of entries) {
      expect(dateOf(at) < today).toBe(true);
      if ("instant" in at) expect(Date.parse(recordedAt)).toBeGreaterThanOrEqual(Date.parse(at.instant));
    }
    expect(new Set(entries.map(({ id }) => id)).size).toBe(entries.length);
  });

  it("name no telephone but those set aside for fiction (555-0100 to 555-0199)", () => {
    const said = JSON.stringify(entries.map(({ body }) => body)).replace(
      /[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g,
      "",
    );
    const phones = said.match(/[\d ()+-]*\d{3}[ -]?\d{4}\b/g)!;
    expect(phones.length).toBeGreaterThan(20);
    for (const phone of phones) expect(phone).toMatch(/^555-01\d\d$/);
  });
});

describe("the demo's caseload", () => {
  it("has about forty people, each with a name of their own, two of them with two stomas", () => {
    expect(people).toHaveLength(41);
    expect(new Set(people.map(({ details }) => details.name)).size).toBe(people.length);
    expect(people.filter((person) => person.stomas.length === 2)).toHaveLength(2);
  });

  it("has every phase, from the second day to several years, and one whose surgery nobody dates", () => {
    const days = stomas.map(({ details }) => details.surgeryOn?.date).filter((date) => date !== undefined);
    const ages = days.map((date) => (Date.parse(today) - Date.parse(date)) / 86_400_000);
    for (const [from, to] of [
      [0, 2],
      [3, 13],
      [14, 28],
      [29, 56],
      [57, 365],
      [366, 10_000],
    ] as const) {
      expect(ages.some((age) => age >= from && age <= to)).toBe(true);
    }
    expect(days).toHaveLength(stomas.length - 1);
  });

  it("has every kind of stoma but the unnamed, and every way of making one", () => {
    const types = new Set(stomas.map(({ details }) => details.type));
    expect([...types].sort()).toEqual(stomaTypes.filter((type) => type !== "other").sort());
    expect(new Set(stomas.map(({ details }) => details.construction))).toEqual(new Set(constructions));
  });

  it("has an infant's oval of 10 by 6 mm", () => {
    const infant = people.find(({ details }) => details.name === "Theo Larkmere")!;
    expect(infant.stomas[0]!.readings.at(-1)).toMatchObject({ longestMm: 10, narrowestMm: 6 });
  });

  it("has readings from guides that go up to the next ring, and traced outlines", () => {
    const readings = stomas.flatMap((stoma) => stoma.readings);
    const guided = readings.filter(({ method }) => method === "guide");
    for (const { longestMm, stepMm } of guided) {
      const rings = longestMm / stepMm!;
      expect(Math.abs(rings - Math.round(rings))).toBeLessThan(1e-3);
    }
    expect(readings.filter(({ method }) => method === "tracing").length).toBeGreaterThan(10);
  });

  it("has one who is in hospital, one who died, one who moved away and one whose stoma was closed", () => {
    const standings = people.map(({ standing }) => standing);
    expect(standings.filter((standing) => standing === "paused")).toHaveLength(1);
    expect(standings.filter((standing) => standing === "ended")).toHaveLength(2);
    expect(stomas.filter(({ standing }) => standing === "ended")).toHaveLength(3);
  });

  it("has one measurement corrected and one change taken back, each with its reason", () => {
    const corrections = entries.filter(({ corrects }) => corrects !== undefined);
    expect(corrections.map(({ kind, corrects }) => [kind, corrects!.as]).sort()).toEqual([
      ["changed", "retract"],
      ["measured", "replace"],
    ]);
    for (const { reason } of corrections) expect(reason).toBeTruthy();
  });

  it("has one who leaked less after changing to a convex barrier", () => {
    const { wears } = people.find(({ details }) => details.name === "Mireille Vaucresse")!.stomas[0]!;
    const failedShare = (barrier: string) => {
      const own = wears.filter(({ systemName, endMs }) => systemName!.includes(barrier) && endMs !== null);
      expect(own.length).toBeGreaterThan(5);
      return own.filter(({ why }) => why !== "planned").length / own.length;
    };
    expect(failedShare("flat")).toBeGreaterThan(3 * failedShare("convex"));
  });

  it("has one whose leaks all lie between three and five o'clock", () => {
    const { changes } = people.find(({ details }) => details.name === "Yuki Haramatsu")!.stomas[0]!;
    const hours = changes.flatMap(({ source }) => source.entry.body.leakHours ?? []);
    expect(hours.length).toBeGreaterThan(4);
    for (const hour of hours) expect([3, 4, 5]).toContain(hour);
  });

  it("has one who changes a closed pouch two or three times a day", () => {
    const { wears } = people.find(({ details }) => details.name === "Eamon Garravane")!.stomas[0]!;
    const days = wornDays({ ...wears[0]!, endMs: wears.at(-1)!.startMs }, 0);
    const aDay = (wears.length - 1) / days;
    expect(aDay).toBeGreaterThan(1.8);
    expect(aDay).toBeLessThan(3.2);
  });
});

describe("today's list over the demo", () => {
  const codes = [
    "measureDue",
    "openingTooLarge",
    "openingTooSmall",
    "openingOutgrown",
    "unplannedChanges",
    "shortWear",
  ];
  let lists: Today[];
  beforeAll(async () => {
    lists = [
      await todayOf(today, zone),
      // The day after clocks went forward, and a zone on the other side of the date line.
      await todayOf("2027-03-29", zone),
      await todayOf("2026-07-01", "Pacific/Auckland"),
    ];
  }, 60_000);

  it("is short: most are well", () => {
    for (const { lines, others } of lists) {
      expect(lines.length).toBeGreaterThanOrEqual(8);
      expect(lines.length).toBeLessThanOrEqual(12);
      expect(others).toBeGreaterThan(2 * lines.length);
    }
  });

  it("gives every reason there is at least once", () => {
    for (const { lines } of lists) {
      const given = new Set(lines.flatMap(({ reasons }): Reason[] => reasons).map(({ code }) => code));
      expect([...given].sort()).toEqual([...codes].sort());
    }
  });
});
