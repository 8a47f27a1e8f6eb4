import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Bench, contentOf, keepPhoto, keptRecord, newBench } from "../../../test/record/kept.ts";
import { clinicId, entry, samplePerson } from "../../../test/record/samples.ts";
import { enforceRecoveryKey, newRecoveryKey, rotateKeys } from "../keys/index.ts";
import { type OpenRecord, openRecord } from "../open/index.ts";
import { resealPhotos } from "../photo/index.ts";
import { migrate } from "../store/migrations/index.ts";
import { entryToRow } from "../store/rows.ts";
import { digestsOf, dumpLines } from "./dump.ts";
import { backUp, proveRecoveryKey, restore, verifyBackup, withSnapshot } from "./index.ts";
import { newDatabase } from "./newDatabase.ts";
import { writeSealed } from "./sealedFile.ts";

let bench: Bench;
let record: OpenRecord;
let personId: string;
let photoId: string;
let recoveryKey: string;
let file: string;
beforeAll(async () => {
  bench = newBench();
  ({ record, personId } = await keptRecord(bench));
  photoId = await keepPhoto(record, personId);
  const keys = await record.keys();
  const made = await newRecoveryKey();
  recoveryKey = made.identity;
  await enforceRecoveryKey(made, { db: record.db, keys, reseal: () => resealPhotos(record.db, keys) });
  ({ file } = await backUp(record, { to: bench.path("backup") }));
});
afterAll(async () => {
  await record.close();
  bench.remove();
});

const keyFile = () => bench.keyFile;
let folders = 0;
/** A data folder that nothing is in yet. */
const newFolder = () => bench.path(`restored-${++folders}`);

/** Works on what was restored into a folder. */
async function inFolder<T>(
  dataDir: string,
  work: (restored: OpenRecord) => Promise<T>,
  key = keyFile(),
): Promise<T> {
  const restored = await openRecord({ dataDir, keyFile: key });
  try {
    return await work(restored);
  } finally {
    await restored.close();
  }
}

const tablesOf = (one: OpenRecord) => withSnapshot(one.db, (snapshot) => digestsOf(snapshot));

describe("a restored record", () => {
  it("is the one that was backed up, table by table", async () => {
    const dataDir = newFolder();
    const { backup } = await restore({ from: file, to: { dataDir }, keyFile: keyFile() });
    expect(backup).toMatchObject({ recordId: (await record.keys()).recordId, photos: 1 });
    await inFolder(dataDir, async (restored) => {
      const [was, is] = [await tablesOf(record), await tablesOf(restored)];
      // The trail has a line more on each side, and the record remembers its last backup.
      for (const own of ["audit_line", "audit_head", "mark"]) for (const one of [was, is]) delete one[own];
      expect(is).toEqual(was);
      expect(await restored.photos.open(clinicId, photoId)).not.toBeNull();
      expect(await restored.audit.verify(clinicId)).toMatchObject({ ok: true });
      const { lines } = await restored.audit.page(clinicId, { limit: 1 });
      expect(lines[0]).toMatchObject({ action: "restore" });
    });
  });

  it("gives no cursor twice, not even one of an entry that is gone", async () => {
    const source = newBench();
    const { record: other } = await keptRecord(source);
    const last = (await other.store.entriesAfter(clinicId, 0, 1e6)).at(-1)!.cursor;
    const erased = samplePerson();
    await other.store.append(erased.entries);
    const order = {
      clinicId,
      personId: erased.personId,
      ground: "ordered",
      accountId: null,
      sessionId: null,
    } as const;
    await other.erasure.erase({ ...order, nowMs: Date.now() });
    const made = await backUp(other, { to: source.path("backup") });
    const dataDir = source.path("restored");
    await restore({ from: made.file, to: { dataDir }, keyFile: source.keyFile });
    await inFolder(
      dataDir,
      async (restored) => {
        const [next] = await restored.store.append([samplePerson().entries[0]!]);
        expect(next!.cursor).toBe(last + erased.entries.length + 1);
      },
      source.keyFile,
    );
    await other.close();
    source.remove();
  });

  it("signs nobody in again: sessions, links and counts of failures stay behind", async () => {
    const text = async () => {
      let all = "";
      await withSnapshot(record.db, async (snapshot) => {
        for await (const piece of dumpLines(snapshot)) all += piece;
      });
      return all;
    };
    await record.db
      .insertInto("throttle")
      .values({ about: "somebody", failures: 3, last_ms: 1, not_before_ms: 2 })
      .execute();
    expect(await text()).not.toMatch(
      /"table":"(account_session|account_link|challenge|known_device|throttle)"/,
    );
  });

  it("from a backup of an older version is brought up to date", async () => {
    const older = newDatabase(bench.path("older.sqlite"));
    await migrate(older, ["2026-11-25-entries"]);
    const person = samplePerson();
    for (const one of person.entries) await older.insertInto("entry").values(entryToRow(one)).execute();
    await older
      .insertInto("mark")
      .values({ name: "recordId", value: (await record.keys()).recordId })
      .execute();
    const from = bench.path("older-backup");
    const { recipients } = await record.keys();
    await writeSealed(from, dumpLines(older), { recipients });
    await older.destroy();
    const dataDir = newFolder();
    await restore({ from, to: { dataDir }, keyFile: keyFile() });
    await inFolder(dataDir, async (restored) => {
      expect(await restored.store.entriesOfPerson(clinicId, person.personId)).toHaveLength(2);
      expect(await restored.store.rebuild()).toEqual({ people: 1, entries: 2 });
      expect(await restored.photos.open(clinicId, await keepPhoto(restored, person.personId))).not.toBeNull();
    });
  });

  it("opens with a key that was retired since", async () => {
    const source = newBench();
    const { record: other, personId: who } = await keptRecord(source);
    const photo = await keepPhoto(other, who);
    const made = await backUp(other, { to: source.path("backup") });
    const keys = await other.keys();
    await rotateKeys({ db: other.db, keys, reseal: () => resealPhotos(other.db, keys) });
    const to = { dataDir: source.path("restored") };
    expect(await restore({ from: made.file, to, keyFile: source.keyFile })).toMatchObject({ photosLost: 0 });
    await inFolder(
      to.dataDir,
      async (restored) => expect(await restored.photos.open(clinicId, photo)).not.toBeNull(),
      source.keyFile,
    );
    await other.close();
    source.remove();
  });
});

describe("with the recovery key alone", () => {
  it("everything comes back: entries, photographs, and a trail that still holds", async () => {
    const dataDir = newFolder();
    const newKeyFile = bench.path("new machine", "record.key");
    const done = await restore({ from: file, to: { dataDir }, keyFile: newKeyFile, recoveryKey });
    expect(done).toMatchObject({ keyFile: newKeyFile, photosLost: 0 });
    await inFolder(
      dataDir,
      async (restored) => {
        expect(await restored.photos.open(clinicId, photoId)).not.toBeNull();
        expect((await restored.keys()).auditKey()).toEqual((await record.keys()).auditKey());
        expect(await restored.audit.verify(clinicId)).toMatchObject({ ok: true, unsealed: 0 });
        // The new key file is as good as the lost one: what is sealed from now on opens with both.
        const again = await backUp(restored, { to: bench.path("again") });
        expect(again.opensWithRecoveryKey).toBe(true);
        expect(await verifyBackup({ from: again.file, recoveryKey })).toMatchObject({ photos: 1 });
      },
      newKeyFile,
    );
  });

  it("a restore that failed at its last step can be tried again", async () => {
    const dataDir = newFolder();
    const newKeyFile = bench.path("third machine", "record.key");
    const again = { from: file, to: { dataDir }, keyFile: newKeyFile, recoveryKey, replace: true };
    await restore(again);
    rmSync(newKeyFile);
    const running = await openRecord({ dataDir, keyFile: bench.path("unused.key") });
    await running.store.counts(clinicId);
    await expect(restore(again)).rejects.toMatchObject({ code: "recordInUse" });
    await running.close();
    expect(existsSync(newKeyFile)).toBe(true);
    expect(await restore(again)).toMatchObject({ photosLost: 0 });
    await inFolder(
      dataDir,
      async (one) => expect(await one.photos.open(clinicId, photoId)).not.toBeNull(),
      newKeyFile,
    );
  });

  it("it can be tried at any time: a small backup is restored with the paper alone", async () => {
    const second = Array.from({ length: 80 }, () => samplePerson().entries).flat();
    const elsewhere = { clinicId: "1c7c9a52-6a0e-4c9f-8d53-0f6f3a1c2d10" };
    await record.store.append(second.map((one) => ({ ...one, ...elsewhere })));
    await record.store.append(
      second.slice(0, 160).map((one) => ({ ...one, personId: samplePerson().personId })),
    );
    expect(await proveRecoveryKey(record, recoveryKey)).toMatchObject({ photos: 1 });
    expect((await record.keys()).recovery?.provedAt).toMatch(/^\d{4}-/);
    expect(readdirSync(bench.folder).filter((name) => name.includes("trial"))).toEqual([]);
    const other = (await newRecoveryKey()).identity;
    await expect(proveRecoveryKey(record, other)).rejects.toMatchObject({ code: "notTheRecoveryKey" });
  });
});

describe("a record whose key file is in its usual place", () => {
  it("is backed up and restored without a word about keys", async () => {
    const source = newBench();
    const there = process.env.XDG_CONFIG_HOME;
    process.env.XDG_CONFIG_HOME = source.path("usual");
    try {
      const { record: other } = await keptRecord({ dataDir: source.dataDir } as Bench);
      const made = await backUp(other, { to: source.path("backup") });
      await other.close();
      const done = await restore({ from: made.file, to: { dataDir: source.path("restored") } });
      expect(done.keyFile).toBe(source.path("usual", "roundel", `${done.backup.recordId}.key`));
    } finally {
      process.env.XDG_CONFIG_HOME = there;
      source.remove();
    }
  });
});

describe("where a record stands already", () => {
  it("it is not touched unless it is to be replaced, and then it is set aside whole", async () => {
    const dataDir = newFolder();
    await restore({ from: file, to: { dataDir }, keyFile: keyFile() });
    const late = entry("noted", { text: "after the backup" }, { personId });
    await inFolder(dataDir, (one) => one.store.append([late]));
    const again = { from: file, to: { dataDir }, keyFile: keyFile() };
    await expect(restore(again)).rejects.toMatchObject({ code: "recordExists" });
    const { setAside } = await restore({ ...again, replace: true });
    await inFolder(dataDir, async (one) => expect(await one.store.entry(clinicId, late.id)).toBeNull());
    const old = new Database(setAside!, { readonly: true });
    expect(old.prepare("select count(*) as rows from entry where id = ?").get(late.id)).toEqual({ rows: 1 });
    old.close();
  });

  it("that is open in a bench it is not replaced", async () => {
    const dataDir = newFolder();
    await restore({ from: file, to: { dataDir }, keyFile: keyFile() });
    await inFolder(dataDir, async (running) => {
      await running.store.counts(clinicId);
      const into = restore({ from: file, to: { dataDir }, replace: true, keyFile: keyFile() });
      await expect(into).rejects.toMatchObject({ code: "recordInUse" });
      await running.store.append([entry("noted", { text: "still here" }, { personId })]);
    });
    expect(readdirSync(dataDir)).toEqual(["record.sqlite"]);
  });

  it.each([
    ["rubbish", () => Buffer.from("this is no database at all, though it has its name")],
    ["a torn page", (bytes: Buffer) => bytes.fill(0xee, 100, 9000)],
    ["half a file", (bytes: Buffer) => bytes.subarray(0, Math.floor(bytes.length / 2))],
  ])("that is damaged (%s) it is replaced, and kept for whoever can read it", async (_what, damage) => {
    const dataDir = newFolder();
    const path = join(dataDir, "record.sqlite");
    await restore({ from: file, to: { dataDir }, keyFile: keyFile() });
    const damaged = damage(readFileSync(path));
    writeFileSync(path, damaged);
    const { setAside } = await restore({ from: file, to: { dataDir }, replace: true, keyFile: keyFile() });
    expect(existsSync(setAside!)).toBe(true);
    await inFolder(dataDir, async (one) => expect((await one.store.counts(clinicId)).people).toBe(1));
  });

  it("a write-ahead log without its database is not taken for the new one's", async () => {
    const dataDir = newFolder();
    mkdirSync(dataDir);
    writeFileSync(join(dataDir, "record.sqlite-wal"), "a log of something else");
    await restore({ from: file, to: { dataDir }, keyFile: keyFile() });
    await inFolder(dataDir, async (one) => expect((await one.store.counts(clinicId)).people).toBe(1));
  });

  it("stopping in the middle leaves it as it was", async () => {
    const dataDir = newFolder();
    await restore({ from: file, to: { dataDir }, keyFile: keyFile() });
    const before = contentOf(dataDir);
    for (const step of ["onChecking", "onWriting"] as const) {
      const stop = new AbortController();
      const into = restore({
        from: file,
        to: { dataDir },
        replace: true,
        keyFile: keyFile(),
        signal: stop.signal,
        [step]: () => stop.abort(),
      });
      await expect(into).rejects.toMatchObject({ name: "AbortError" });
      expect(contentOf(dataDir)).toEqual(before);
    }
  });
});

describe("whoever was erased since the backup", () => {
  const erase = (one: OpenRecord, who: string) =>
    one.erasure.erase({
      clinicId,
      personId: who,
      ground: "ordered",
      accountId: null,
      sessionId: null,
      nowMs: Date.now(),
    });

  it.each(["the ledger beside the key file", "the record that is replaced"])(
    "stays erased, told by %s",
    async (by) => {
      const source = newBench();
      const { record: other, personId: who } = await keptRecord(source);
      await keepPhoto(other, who);
      const made = await backUp(other, { to: source.path("backup") });
      await erase(other, who);
      await other.close();
      const ledger = readdirSync(source.path("settings")).find((name) => name.endsWith(".erased.jsonl"))!;
      if (by !== "the ledger beside the key file") rmSync(source.path("settings", ledger));
      const to = { dataDir: by === "the ledger beside the key file" ? source.path("new") : source.dataDir };
      const done = await restore({ from: made.file, to, keyFile: source.keyFile, replace: true });
      expect(done.erasedAgain).toBe(1);
      await inFolder(
        to.dataDir,
        async (restored) => {
          expect(await restored.store.entriesOfPerson(clinicId, who)).toEqual([]);
          expect(await restored.photos.list(clinicId, who)).toEqual([]);
          expect(await restored.audit.verify(clinicId)).toMatchObject({ ok: true });
        },
        source.keyFile,
      );
      // Both know it again, whichever of them had been lost.
      expect(readFileSync(source.path("settings", ledger), "utf8")).toContain(who);
      expect(readFileSync(join(to.dataDir, "record.sqlite")).includes("Edda Voss")).toBe(false);
      source.remove();
    },
  );
});
