import { readFileSync } from "node:fs";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicEntry, clinicId, now, nurse, samplePerson, zone } from "../../../test/record/samples.ts";
import { InputError } from "../../domain/fault.ts";
import { openSqlite, type RecordStore } from "../store/index.ts";
import { personStory } from "../story/index.ts";
import { checkLog, importLog, type LogReport, whyNotImport, writeLog } from "./index.ts";

const example = readFileSync(new URL("../../../docs/guide/examples/changes.csv", import.meta.url));
const person = samplePerson();

let store: RecordStore;
beforeEach(async () => {
  store = await openSqlite(":memory:");
  await store.append([clinicEntry(), ...person.entries]);
});
afterEach(() => store.close());

async function story() {
  return personStory(await store.entriesOfPerson(clinicId, person.personId))!;
}

async function check(bytes: Uint8Array): Promise<LogReport> {
  const { stomas, history } = await story();
  return checkLog(bytes, { stoma: stomas[0]!, history, zone, nowMs: now });
}

const options = { clinicId, ...person.about, author: nurse, nowMs: now };

describe("the example of the guide", () => {
  it("is a log without a fault", async () => {
    expect(await check(example)).toMatchObject({
      rows: 6,
      good: 6,
      bad: [],
      problems: [],
      unknownColumns: [],
    });
  });

  it("comes in whole and makes the wears it tells of", async () => {
    const done = await importLog(store, await check(example), { ...options, accept: "all" });
    expect(done).toEqual({ imported: 6, duplicates: 0, left: [] });
    const [stoma] = (await story()).stomas;
    expect(stoma?.wears.map(({ why }) => why)).toEqual([
      "leakUnderBarrier",
      "planned",
      "itchOrLifting",
      "planned",
      null,
    ]);
    expect(stoma?.changes[0]?.source.entry).toMatchObject({
      by: nurse,
      reportedBy: "a log file",
      kind: "changed",
    });
  });

  it("comes in once, also as it is written by the record itself", async () => {
    await importLog(store, await check(example), { ...options, accept: "all" });
    expect(await check(example)).toMatchObject({ duplicates: { inRecord: 6 }, drafts: [] });
    const written = new TextEncoder().encode(writeLog((await story()).stomas[0]!, zone));
    expect(await check(written)).toMatchObject({ good: 6, duplicates: { inRecord: 6 }, drafts: [] });
  });
});

describe("a log with faults", () => {
  const faulty = new TextEncoder().encode(
    "date,what,why\n2026-11-02,barrier,planned\n2026-11-03,plate,planned\n2026-11-04,barrier,broken\n",
  );

  it("holds up the whole file, and nothing is written", async () => {
    const report = await check(faulty);
    expect(whyNotImport(report, "all")).toMatchObject({ problem: "has 2 rows that cannot be read", got: 2 });
    await expect(importLog(store, report, { ...options, accept: "all" })).rejects.toBeInstanceOf(InputError);
    expect((await store.counts(clinicId)).entries).toBe(3);
  });

  it("gives its good rows where that is asked for, and names those left out", async () => {
    const done = await importLog(store, await check(faulty), { ...options, accept: "goodOnly" });
    expect(done).toMatchObject({ imported: 1, left: [{ line: 3 }, { line: 4 }] });
  });

  it("as a whole is refused either way", async () => {
    const report = await check(new TextEncoder().encode("when,what\n2026-11-02,barrier\n"));
    expect(whyNotImport(report, "goodOnly")?.problem).toContain("The column “date” is missing");
    await expect(importLog(store, report, { ...options, accept: "goodOnly" })).rejects.toBeInstanceOf(
      InputError,
    );
  });
});

it("an import that is called off before it begins writes nothing", async () => {
  const stop = new AbortController();
  stop.abort();
  const report = await check(example);
  await expect(
    importLog(store, report, { ...options, accept: "all", signal: stop.signal }),
  ).rejects.toThrow();
  expect((await store.counts(clinicId)).entries).toBe(3);
});
