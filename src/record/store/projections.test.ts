import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { life, step } from "../../../test/record/lives.ts";
import { clinicId, day, entry, now, round, samplePerson } from "../../../test/record/samples.ts";
import { openSqlite, type RecordStore } from "./index.ts";

/** Everything that the lists keep, without the fits' own days, which a rebuild leaves to be made again. */
async function projections(store: RecordStore) {
  const { people } = await store.people(clinicId, { text: "", after: null, limit: 100 });
  const caseload = await store.caseload(clinicId, everything);
  const stale = await store.staleFits(clinicId, { programVersion: "none", protocolVersion: -1 }, 100);
  return {
    people,
    wears: caseload.flatMap(({ wears }) => wears).sort((a, b) => (a.wearId < b.wearId ? -1 : 1)),
    stomas: stale.map(({ stomaId }) => stomaId).sort(),
  };
}

const everything = {
  newSince: "0001-01-01",
  newMeasuredBy: "9999-01-01",
  settledMeasuredBy: "9999-01-01",
  maxGapMm: -1000,
  today: "9999-01-01",
  wearsSinceMs: 0,
};

describe("the lists", () => {
  it("after any entries and corrections are what a rebuild makes of the record", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(step, { maxLength: 25 }),
        fc.integer({ min: 1, max: 6 }),
        async (steps, atOnce) => {
          const store = await openSqlite(":memory:");
          const entries = life([samplePerson(), samplePerson(), samplePerson()], steps);
          for (let from = 0; from < entries.length; from += atOnce) {
            await store.append(entries.slice(from, from + atOnce));
          }
          const before = await projections(store);
          const done = await store.rebuild();
          expect(await projections(store)).toEqual(before);
          expect(done.entries).toBe(entries.length);
          await store.close();
        },
      ),
      { numRuns: 40, seed: 21 },
    );
  }, 60_000);

  it("are rebuilt with progress, and stop when told to, leaving the lists as they were", async () => {
    const store = await openSqlite(":memory:");
    await store.append([samplePerson(), samplePerson()].flatMap(({ entries }) => entries));
    const seen: number[] = [];
    await store.rebuild({ onProgress: (done) => seen.push(done) });
    expect(seen).toEqual([1, 2]);
    const stop = new AbortController();
    stop.abort();
    await expect(store.rebuild({ signal: stop.signal })).rejects.toThrow();
    expect(await store.counts(clinicId)).toMatchObject({ people: 2 });
    await store.close();
  });

  it("leave no trace of the time at which they were made", async () => {
    const store = await openSqlite(":memory:");
    const person = samplePerson();
    await store.append([
      ...person.entries,
      entry("measured", round(30), { ...person.about, at: day("2026-11-20") }),
    ]);
    const { people } = await store.people(clinicId, { text: "", after: null, limit: 1 });
    expect(people[0]).toMatchObject({ lastEntryMs: now, stomas: [{ lastMeasuredOn: "2026-11-20" }] });
    await store.close();
  });
});
