import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { engine, openTestRecord, openTestStore, type TestRecord } from "../../../test/record/engine.ts";
import { life, step } from "../../../test/record/lives.ts";
import { clinicId, day, entry, now, round, samplePerson } from "../../../test/record/samples.ts";
import { projectionTables } from "./rebuild.ts";

/** Every row that is derived from the entries. */
async function projections({ db }: TestRecord) {
  const tables = await Promise.all(
    projectionTables.map((table) => db.selectFrom(table).selectAll().execute()),
  );
  return tables.map((rows) => rows.map((row) => JSON.stringify(row)).sort());
}

describe("the lists", () => {
  it("after any entries and corrections are what a rebuild makes of the record", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(step, { maxLength: 25 }),
        fc.integer({ min: 1, max: 6 }),
        async (steps, atOnce) => {
          const record = await openTestRecord();
          const entries = life([samplePerson(), samplePerson(), samplePerson()], steps);
          for (let from = 0; from < entries.length; from += atOnce) {
            await record.store.append(entries.slice(from, from + atOnce));
          }
          const before = await projections(record);
          const done = await record.store.rebuild();
          expect(await projections(record)).toEqual(before);
          expect(done.entries).toBe(entries.length);
          await record.close();
        },
      ),
      { numRuns: engine === "sqlite" ? 40 : 20, seed: 21 },
    );
  }, 60_000);

  it("are rebuilt with progress, and stop when told to, leaving the lists as they were", async () => {
    const store = await openTestStore();
    await store.append([samplePerson(), samplePerson()].flatMap(({ entries }) => entries));
    const seen: number[] = [];
    await store.rebuild({ onProgress: (done) => seen.push(done) });
    expect(seen).toEqual([1, 2]);
    const stop = new AbortController();
    stop.abort();
    await expect(store.rebuild({ signal: stop.signal })).rejects.toThrow();
    expect(await store.counts(clinicId)).toEqual({ people: 2, active: 2, entries: 4 });
    await store.close();
  });

  it("leave no trace of the time at which they were made", async () => {
    const store = await openTestStore();
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
