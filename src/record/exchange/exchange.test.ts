import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { life, step } from "../../../test/record/lives.ts";
import {
  clinicDetails,
  clinicEntry,
  clinicId,
  entry,
  round,
  samplePerson,
} from "../../../test/record/samples.ts";
import type { Entry } from "../entry/index.ts";
import { openSqlite, type RecordStore } from "../store/index.ts";
import { exportRecord, importRecord } from "./index.ts";

const exportedAt = "2026-11-25T10:00:00.000Z";
let source: RecordStore;
let target: RecordStore;
beforeEach(async () => {
  source = await openSqlite(":memory:");
  target = await openSqlite(":memory:");
});
afterEach(() => Promise.all([source.close(), target.close()]));

async function linesOf(store: RecordStore): Promise<string[]> {
  const lines: string[] = [];
  for await (const line of exportRecord(store, clinicId, { exportedAt })) lines.push(line);
  return lines;
}

async function everything(store: RecordStore) {
  const { people } = await store.people(clinicId, { text: "", after: null, limit: 100 });
  return { entries: await store.entriesAfter(clinicId, 0, 1e6), people };
}

const person = samplePerson();
const measured = entry("measured", round(32), person.about);
const correction = entry("measured", round(34), {
  ...person.about,
  corrects: { id: measured.id, as: "replace" },
  reason: "misread",
});

describe("a record that is taken elsewhere", () => {
  it("loses nothing: entries and lists are the same there, and so is its own export", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { maxLength: 30 }), async (steps) => {
        const [from, to] = [await openSqlite(":memory:"), await openSqlite(":memory:")];
        await from.append([clinicEntry(), ...life([samplePerson(), samplePerson(), samplePerson()], steps)]);
        const lines = await linesOf(from);
        const result = await importRecord(lines, to);
        expect(result).toMatchObject({ done: true, bad: [], added: lines.length - 1, alreadyThere: 0 });
        expect(await everything(to)).toEqual(await everything(from));
        expect(await linesOf(to)).toEqual(lines);
        await Promise.all([from.close(), to.close()]);
      }),
      { numRuns: 25, seed: 41 },
    );
  }, 60_000);

  it("begins with what it is and how many entries follow", async () => {
    await source.append([clinicEntry(), ...person.entries]);
    const [first, ...rest] = await linesOf(source);
    expect(JSON.parse(first!)).toEqual({
      format: "roundel-record",
      version: 1,
      clinicId,
      exportedAt,
      programVersion: "0.0.1",
      entries: 3,
    });
    expect(rest.every((line) => line.endsWith("\n") && line.indexOf("\n") === line.length - 1)).toBe(true);
  });

  it("adds nothing when it comes in again, and only what is new when it has grown", async () => {
    await source.append([clinicEntry(), ...person.entries]);
    await importRecord(await linesOf(source), target);
    expect(await importRecord(await linesOf(source), target)).toMatchObject({
      added: 0,
      alreadyThere: 3,
      done: true,
    });
    await source.append([measured]);
    expect(await importRecord(await linesOf(source), target)).toMatchObject({ added: 1, alreadyThere: 3 });
  });

  it("of more entries than one read holds comes whole, with progress, and stops when told to", async () => {
    const many = Array.from({ length: 1300 }, (_, index) =>
      entry("noted", { text: `note ${index}` }, { personId: person.personId }),
    );
    await source.append([clinicEntry(), ...person.entries, ...many]);
    const lines = await linesOf(source);
    expect(lines).toHaveLength(1304);
    const seen: number[] = [];
    expect(await importRecord(lines, target, { onProgress: (done) => seen.push(done) })).toMatchObject({
      added: 1303,
    });
    expect(seen.length).toBeGreaterThan(3);
    const stop = new AbortController();
    stop.abort();
    await expect(importRecord(lines, target, { signal: stop.signal })).rejects.toThrow();
  });
});

describe("a file with something wrong in it", () => {
  let lines: string[];
  beforeEach(async () => {
    await source.append([clinicEntry(), ...person.entries, measured, correction]);
    lines = await linesOf(source);
  });

  const problems = async (given: string[]) => {
    const result = await importRecord(given, target);
    expect(result).toMatchObject({ done: false, added: 0 });
    expect(await target.clinicIds()).toEqual([]);
    return result.bad.map(({ line, faults }) => `${line} ${faults[0]?.path} ${faults[0]?.problem}`);
  };

  it("is left alone whole, and every bad line is named", async () => {
    const broken = [...lines];
    broken[2] = "{ not json";
    broken[4] = lines[4]!.replace('"diameterMm":32', '"diameterMm":900');
    expect(await problems(broken)).toEqual([
      "3  is not JSON",
      "4 personId names no person before it",
      "5 body.shape.guide.diameterMm is too large",
      "6 personId names no person before it",
    ]);
  });

  it("gives its good lines where they are asked for, and those that hang on a bad one stay out", async () => {
    const broken = [...lines];
    broken[4] = lines[4]!.replace('"diameterMm":32', '"diameterMm":900');
    const result = await importRecord(broken, target, { keepGood: true });
    expect(result).toMatchObject({ done: true, added: 3 });
    expect(result.bad.map(({ line }) => line)).toEqual([5, 6]);
  });

  it.each([
    ["is empty", () => []],
    ["is not JSON", () => ["not a record\n"]],
    ["is not one of the choices", () => [JSON.stringify({ format: "something-else" })]],
    ["is not one of the choices", () => [lines[0]!.replace('"version":1', '"version":2'), ...lines.slice(1)]],
    ["ends early", () => lines.slice(0, -1)],
    ["has more entries than its first line says", () => [...lines, lines[1]!]],
  ])("is refused because it %s", async (problem, make) => {
    const found = await problems(make());
    expect(found.at(-1)).toContain(problem);
  });

  it("does not mind blank lines and other line ends", async () => {
    const loose = [...lines.map((line) => line.replace("\n", "\r\n")), "\n", ""];
    expect(await importRecord(loose, target)).toMatchObject({ done: true, added: 5 });
  });

  it("is refused where it belongs to another clinic than the bench", async () => {
    await target.append([{ ...clinicEntry(), clinicId: "11111111-1111-4111-8111-111111111111" }]);
    const result = await importRecord(lines, target);
    expect(result.bad).toMatchObject([
      { line: 1, faults: [{ path: "clinicId", problem: "is another clinic's" }] },
    ]);
    expect(result.done).toBe(false);
  });

  it("names the line whose id holds other content in the record", async () => {
    const other: Entry = { ...clinicEntry(), id: (JSON.parse(lines[1]!) as Entry).id };
    await target.append([{ ...other, body: { ...clinicDetails, name: "Other name" } } as Entry]);
    const result = await importRecord(lines, target);
    expect(result).toMatchObject({ done: false, bad: [{ line: 2, faults: [{ path: "id" }] }] });
    expect((await target.counts(clinicId)).entries).toBe(1);
  });

  it("names the line that corrects what was corrected otherwise meanwhile", async () => {
    await target.append([
      clinicEntry(),
      ...person.entries,
      measured,
      { ...correction, id: entry("noted", { text: "" }).id },
    ]);
    const result = await importRecord(lines, target);
    expect(result).toMatchObject({ done: false, bad: [{ line: 6, faults: [{ path: "corrects.id" }] }] });
  });

  it("that gives one stoma to two people is refused", async () => {
    const other = samplePerson();
    const stolen = JSON.stringify({
      ...person.entries[1]!,
      id: entry("noted", { text: "" }).id,
      personId: other.personId,
    });
    const header = lines[0]!.replace('"entries":5', '"entries":7');
    const given = [header, ...lines.slice(1), JSON.stringify(other.entries[0]), stolen];
    expect(await problems(given)).toEqual(["8 stomaId is a stoma of another person"]);
  });
});
