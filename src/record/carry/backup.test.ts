import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { setImmediate as nextTurn } from "node:timers/promises";
import { gunzipSync } from "node:zlib";
import { Decrypter } from "age-encryption";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Bench, keepPhoto, keptRecord, newBench } from "../../../test/record/kept.ts";
import { clinicId, entry, samplePerson } from "../../../test/record/samples.ts";
import { type OpenRecord, openRecord } from "../open/index.ts";
import { backUp, restore } from "./index.ts";

let bench: Bench;
let record: OpenRecord;
let personId: string;
beforeAll(async () => {
  bench = newBench();
  ({ record, personId } = await keptRecord(bench));
  await keepPhoto(record, personId);
});
afterAll(async () => {
  await record.close();
  bench.remove();
});

const idsIn = async (one: OpenRecord) => (await one.store.entriesAfter(clinicId, 0, 1e6)).map(({ id }) => id);

describe("a backup", () => {
  it("made while 1,000 entries are being written holds those of one instant: none lost, none half, none out of turn", async () => {
    const people = Array.from({ length: 50 }, () => samplePerson());
    await record.store.append(people.flatMap(({ entries }) => entries));
    const before = await idsIn(record);
    const acknowledged: string[] = [];
    let writing = true;
    const write = async () => {
      for (let at = 0; at < 1000; at += 1) {
        const one = entry(
          "noted",
          { text: `note ${at}` },
          { personId: people[at % people.length]!.personId },
        );
        await record.store.append([one]);
        acknowledged.push(one.id);
        await nextTurn();
      }
      writing = false;
    };
    const backUpMeanwhile = async () => {
      const made: { file: string; atLeast: number; atMost: number }[] = [];
      while (writing) {
        const atLeast = acknowledged.length;
        const { file } = await backUp(record, { to: bench.path(`meanwhile-${made.length}`) });
        // One that is not yet acknowledged may be on disk already.
        made.push({ file, atLeast, atMost: acknowledged.length + 1 });
      }
      return made;
    };
    const [, made] = await Promise.all([write(), backUpMeanwhile()]);
    const during = made.filter(({ atLeast, atMost }) => atLeast > 0 && atMost < 1000);
    expect(during.length).toBeGreaterThan(0);
    for (const [index, { file, atLeast, atMost }] of [during[0]!, during.at(-1)!].entries()) {
      const place = { dataDir: bench.path(`at-an-instant-${index}`), keyFile: bench.keyFile };
      await restore({ from: file, to: place, keyFile: bench.keyFile });
      const restored = await openRecord(place);
      const written = (await idsIn(restored)).slice(before.length);
      expect(written).toEqual(acknowledged.slice(0, written.length));
      expect(written.length).toBeGreaterThanOrEqual(atLeast);
      expect(written.length).toBeLessThanOrEqual(atMost);
      expect((await restored.store.counts(clinicId)).entries).toBe(before.length + written.length);
      await restored.close();
    }
  }, 60_000);

  it("opens with the usual tools and the key file: age, then gzip, then lines of JSON", async () => {
    const { file } = await backUp(record, { to: bench.path("usual-tools") });
    const identity = /^AGE-SECRET-KEY-1\w+$/m.exec(readFileSync(bench.keyFile, "utf8"))![0];
    const decrypter = new Decrypter();
    decrypter.addIdentity(identity);
    const text = gunzipSync(await decrypter.decrypt(readFileSync(file))).toString("utf8");
    const lines = text.trimEnd().split("\n");
    expect(JSON.parse(lines[0]!)).toMatchObject({ format: "roundel-backup", version: 1 });
    expect(Object.keys(JSON.parse(lines.at(-1)!).end)).toContain("entry");
  });

  it("shows nothing of its content, and nobody else may read it", async () => {
    const { file, bytes } = await backUp(record, { to: bench.path("closed") });
    expect(statSync(file)).toMatchObject({ size: bytes });
    expect(statSync(file).mode & 0o777).toBe(0o600);
    for (const word of ["Edda Voss", "roundel", "entry", "photo"])
      expect(readFileSync(file).includes(word)).toBe(false);
  });

  it("says whether the recovery key opens it", async () => {
    expect((await backUp(record, { to: bench.path("no-recovery") })).opensWithRecoveryKey).toBe(false);
  });

  it("into a folder gets a name by its date; older ones go, and nothing else does", async () => {
    const folder = bench.path("nightly");
    mkdirSync(folder);
    writeFileSync(
      bench.path("nightly", "roundel-00000000-2026-01-01T000000000Z.jsonl.gz.age"),
      "another record's",
    );
    writeFileSync(bench.path("nightly", "notes.txt"), "a note");
    const day = 86_400_000;
    const start = Date.parse("2026-11-20T03:00:00Z");
    const made: string[] = [];
    for (let night = 0; night < 4; night += 1) {
      const { file, removed } = await backUp(record, { to: folder, keep: 2, nowMs: start + night * day });
      expect(removed).toEqual(night < 2 ? [] : [made[night - 2]]);
      made.push(file);
    }
    expect(made[3]).toMatch(/roundel-[0-9a-f]{8}-2026-11-23T030000000Z\.jsonl\.gz\.age$/);
    expect(readdirSync(folder)).toHaveLength(4);
  });

  it("that is stopped leaves nothing, and the one of that name from before stays", async () => {
    const file = bench.path("stopped");
    writeFileSync(file, "from before");
    const stop = new AbortController();
    const stopped = backUp(record, { to: file, signal: stop.signal, onProgress: () => stop.abort() });
    await expect(stopped).rejects.toMatchObject({ name: "AbortError" });
    expect(readFileSync(file, "utf8")).toBe("from before");
    expect(readdirSync(bench.folder).filter((name) => name.includes(".part"))).toEqual([]);
  });

  it("has to have a folder to lie in", async () => {
    for (const to of [bench.path("no", "file"), `${bench.path("no")}/`]) {
      await expect(backUp(record, { to })).rejects.toMatchObject({ code: "noBackup" });
    }
  });

  it("leaves a line in the audit trail", async () => {
    await backUp(record, { to: bench.path("audited") });
    const { lines } = await record.audit.page(clinicId, { limit: 1 });
    expect(lines[0]).toMatchObject({ action: "backUp", accountId: null, objects: [] });
  });
});
