import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { setImmediate as nextTurn } from "node:timers/promises";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { type Bench, keepPhoto, keptRecord, newBench } from "../../../test/record/kept.ts";
import { clinicId, entry, round, samplePerson } from "../../../test/record/samples.ts";
import type { OpenRecord } from "../open/index.ts";
import { openRecord } from "../open/index.ts";
import { refreshFits } from "../projection/index.ts";
import { clinicStory } from "../story/index.ts";
import { checkRecord, type Finding, mendedBy } from "./index.ts";

let bench: Bench;
let personId: string;
const file = () => bench.path("clinic", "record.sqlite");
beforeEach(async () => {
  bench = newBench();
  const kept = await keptRecord(bench);
  personId = kept.personId;
  await keepPhoto(kept.record, personId);
  await noteInTrail(kept.record);
  const clinic = clinicStory(await kept.record.store.clinicEntries(clinicId))!;
  await refreshFits(kept.record.store, clinic);
  await kept.record.close();
});
afterEach(() => bench.remove());

async function noteInTrail({ audit }: OpenRecord): Promise<void> {
  const line = {
    atMs: 1,
    accountId: null,
    sessionId: null,
    action: "readToday",
    objects: [],
    outcome: "done",
  } as const;
  await audit.append(clinicId, [line, line]);
}

async function findings(): Promise<Finding[]> {
  const found: Finding[] = [];
  const places = { keyFile: bench.keyFile, dataDir: bench.dataDir };
  await checkRecord({ file: file() }, { places, onFinding: (finding) => void found.push(finding) });
  return found;
}

/** Changes the database behind the program's back, its guards taken off first. */
function tamper(statement: string): void {
  const database = new Database(file());
  const guards = database.prepare("select name from sqlite_master where type = 'trigger'").all() as {
    name: string;
  }[];
  for (const { name } of guards) database.exec(`drop trigger ${name}`);
  database.exec(statement);
  database.close();
}

describe("a record without damage", () => {
  it("has no findings, and is not changed by looking for them", async () => {
    const before = readFileSync(file());
    expect(await findings()).toEqual([]);
    expect(readFileSync(file()).equals(before)).toBe(true);
  });

  it("has none either while the bench writes to it", async () => {
    const record = await openRecord(bench);
    let checked = false;
    const writing = (async () => {
      for (let at = 0; !checked; at += 1) {
        const someone = samplePerson({ name: `Person ${at}` });
        await record.store.append([...someone.entries, entry("measured", round(30), someone.about)]);
        await nextTurn();
      }
    })();
    for (let times = 0; times < 3; times += 1) expect(await findings()).toEqual([]);
    checked = true;
    await writing;
    await record.close();
  });
});

it("a record of an older version is not taken for a damaged one", async () => {
  tamper("delete from kysely_migration where name = '2026-11-25-photo'");
  await expect(findings()).rejects.toMatchObject({ code: "olderForm" });
});

describe("damage is found and named, without what stands there", () => {
  const measured = "(select cursor from entry where kind = 'measured' limit 1)";
  it.each<[string, string, Finding["part"], RegExp]>([
    [
      "an entry whose body is cut short",
      `update entry set body = '{"method"' where cursor = ${measured}`,
      "entries",
      /not JSON/,
    ],
    [
      "an entry that lost a field",
      `update entry set body = '{"method":"guide"}' where cursor = ${measured}`,
      "entries",
      /body\.shape is missing/,
    ],
    [
      "an entry of a kind that is none",
      `update entry set kind = 'tampered' where cursor = ${measured}`,
      "entries",
      /kind/,
    ],
    [
      "an entry whose author is gone",
      `update entry set "by" = 'null' where cursor = ${measured}`,
      "entries",
      /by/,
    ],
    [
      "an entry in the order of another time",
      `update entry set at_ms = at_ms + 1 where cursor = ${measured}`,
      "entries",
      /another time/,
    ],
    [
      "a correction of nothing",
      `update entry set corrects_id = '00000000-0000-4000-8000-000000000000', corrects_as = 'retract', reason = 'misread' where cursor = ${measured}`,
      "entries",
      /not in the record/,
    ],
    ["a list with another name", "update person_row set name = 'Somebody else'", "lists", /the person/],
    ["a stoma that is on no list", "delete from stoma_row", "lists", /stomas/],
    ["a size that was never measured", "update stoma_row set last_longest_mm = 99", "lists", /stomas/],
    [
      "a wear that nobody wore",
      "insert into wear_row (clinic_id, wear_id, stoma_id, person_id, ended_ms, hours, why) select clinic_id, 'w', stoma_id, person_id, 1, 1, 'leak' from stoma_row limit 1",
      "lists",
      /wears/,
    ],
    [
      "a day until which an opening fits, invented",
      "update stoma_row set fits_until_on = '2030-01-01'",
      "lists",
      /healing curves/,
    ],
    [
      "a person on the list without an entry",
      "insert into person_row (clinic_id, person_id, name, search_text, standing, last_entry_ms) select clinic_id, '7', 'x', 'x', 'active', 1 from person_row limit 1",
      "lists",
      /the person/,
    ],
    ["a count that is off", "update clinic_row set active = active + 1", "lists", /counts/],
    [
      "a photograph with one bit changed",
      "update photo set picture = substr(picture, 1, 50) || x'00' || substr(picture, 52)",
      "photographs",
      /damaged/,
    ],
    ["a small photograph that is missing", "update photo set thumbnail = x''", "photographs", /damaged/],
    [
      "a photograph whose key is another's",
      "update photo set sealed_key = x'00'",
      "photographs",
      /damaged|sealed/,
    ],
    [
      "a line of the trail that was altered",
      "update audit_line set action = 'signIn' where seq = 1",
      "audit",
      /altered/,
    ],
    ["a line of the trail that was removed", "delete from audit_line where seq = 1", "audit", /removed/],
  ])("%s", async (_what, statement, part, problem) => {
    tamper(statement);
    const found = await findings();
    expect(found).toContainEqual(expect.objectContaining({ part, problem: expect.stringMatching(problem) }));
    expect(JSON.stringify(found)).not.toMatch(/Edda|Somebody else|undefined|\[object/);
  });

  it("a page of the file that was overwritten", async () => {
    const bytes = readFileSync(file());
    bytes.fill(0xee, 4096 * 3, 4096 * 5);
    writeFileSync(file(), bytes);
    const found = await findings();
    expect(found.map(({ part }) => part)).toContain("file");
    expect(found.map(({ part }) => mendedBy[part])).toContain("restore");
  });

  it("a file that is no database any more", async () => {
    writeFileSync(file(), "no database");
    expect(await findings()).toContainEqual(expect.objectContaining({ part: "file" }));
  });

  it("a key file that is not there: everything else is checked all the same", async () => {
    rmSync(bench.keyFile);
    tamper("update person_row set name = 'Somebody else'");
    const found = await findings();
    expect(found.map(({ part }) => part).sort()).toEqual(["keys", "lists"]);
  });
});
