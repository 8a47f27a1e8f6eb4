import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { type Kysely, sql } from "kysely";
import { v4, v7 } from "uuid";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  change,
  clinicEntry,
  clinicId,
  day,
  draft,
  entry,
  instant,
  now,
  nurse,
  round,
  samplePerson,
} from "../../../test/record/samples.ts";
import { acceptDrafts } from "../accept/index.ts";
import { AuditTrail } from "../audit/index.ts";
import { exportRecord, importRecord } from "../exchange/index.ts";
import { ErasedError, recordFile } from "../store/index.ts";
import type { RecordTables } from "../store/schema.ts";
import { openSqliteDatabase } from "../store/sqlite/index.ts";
import { SqlStore } from "../store/sqlStore.ts";
import { Erasure, type ErasureOrder, Ledger, ledgerPlace, NobodyToErase } from "./index.ts";
import { tablesOfAccount } from "./removing.ts";

const edda = samplePerson({ name: "Edda Vosskuhl", identifier: "R-90412" });
const bram = samplePerson({ name: "Bram Okonjo" });
const lead = v4();

let folder: string;
let db: Kysely<RecordTables>;
let store: SqlStore;
let audit: AuditTrail;
let ledger: Ledger;
let erasure: Erasure;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "roundel-erasure-"));
  db = await openSqliteDatabase(recordFile(folder));
  store = new SqlStore(db);
  audit = new AuditTrail(db);
  ledger = new Ledger(ledgerPlace(join(folder, "keys", "x.key"), "record"));
  erasure = new Erasure(db, { audit, ledger: async () => ledger });
  await store.append([clinicEntry(), ...edda.entries, ...bram.entries]);
});
afterEach(async () => {
  await db.destroy();
  rmSync(folder, { recursive: true, force: true });
});

const order = (more: Partial<ErasureOrder> = {}): ErasureOrder => ({
  clinicId,
  personId: edda.personId,
  ground: "consentWithdrawn",
  accountId: lead,
  sessionId: v4(),
  nowMs: now,
  ...more,
});

/** How often a text stands in the raw bytes of the database and its log. */
const timesOnDisk = (text: string) =>
  ["", "-wal", "-journal"]
    .map((suffix) => recordFile(folder) + suffix)
    .filter((file) => existsSync(file))
    .reduce((sum, file) => sum + readFileSync(file).toString("latin1").split(text).length - 1, 0);

describe("erasing a person", () => {
  it("leaves nothing of them in any table, and everybody else untouched", async () => {
    const others = await store.entriesOfPerson(clinicId, bram.personId);
    const done = await erasure.erase(order());
    expect(done).toMatchObject({ entries: 2, photos: 0, accounts: 0, isTraceless: true });
    expect(await store.entriesOfPerson(clinicId, edda.personId)).toEqual([]);
    expect((await store.people(clinicId, { text: "", after: null, limit: 9 })).people).toMatchObject([
      { name: "Bram Okonjo" },
    ]);
    expect(await store.counts(clinicId)).toEqual({ people: 1, active: 1, entries: 3 });
    expect(await store.entriesOfPerson(clinicId, bram.personId)).toEqual(others);
  });

  it("leaves not a byte of their name, number or notes on the disk, however often they were written", async () => {
    for (let week = 0; week < 60; week += 1) {
      const other = samplePerson({ name: `Person ${week} of many` });
      await store.append([
        ...other.entries,
        entry("noted", { text: `Vosskuhl came by. ${"x".repeat(week * 37)}` }, { ...edda.about }),
        entry("changed", change("leakPastEdge"), {
          ...edda.about,
          at: instant(`2026-11-${10 + (week % 10)}T08:00:00Z`),
        }),
        entry("measured", round(30 + (week % 9)), { ...other.about, at: day("2026-11-24") }),
      ]);
    }
    const told = ["Vosskuhl", "vosskuhl", "R-90412"];
    for (const text of told) expect([text, timesOnDisk(text) > 0]).toEqual([text, true]);
    expect(await erasure.erase(order())).toMatchObject({ isTraceless: true });
    for (const text of told) expect([text, timesOnDisk(text)]).toEqual([text, 0]);
  });

  it("says so when another program still reads pages from before", async () => {
    const reader = new Database(recordFile(folder));
    reader.prepare("begin").run();
    reader.prepare("select count(*) from entry").get();
    await sql`pragma busy_timeout = 50`.execute(db);
    expect(await erasure.erase(order())).toMatchObject({ isTraceless: false });
    reader.close();
    expect(await erasure.erase(order())).toMatchObject({ entries: 0, isTraceless: true });
    expect(timesOnDisk("Vosskuhl")).toBe(0);
  });

  it("takes their photographs with their keys, and the accounts of them and their helpers", async () => {
    await keepPhoto(edda.personId);
    await keepPhoto(bram.personId);
    const [own, helper, nurseId] = [v4(), v4(), v4()];
    await keepAccount(own, "person", edda.personId);
    await keepAccount(helper, "helper", edda.personId);
    await keepAccount(nurseId, "nurse", null);
    expect(await erasure.erase(order())).toMatchObject({ photos: 1, accounts: 2 });
    const left = async (table: "account" | "known_device") =>
      (await db.selectFrom(table).select("account_id").execute()).map((row) => row.account_id);
    expect(await left("account")).toEqual([nurseId]);
    expect(await left("known_device")).toEqual([nurseId]);
    expect(await db.selectFrom("photo").select("person_id").execute()).toEqual([
      { person_id: bram.personId },
    ]);
  });

  it("knows every table that holds something about a person or of an account", async () => {
    const { rows } = await sql<{ name: string; column: string }>`
      select m.name as name, c.name as column from sqlite_master m join pragma_table_info(m.name) c
      where m.type = 'table' and c.name in ('person_id', 'account_id') order by 1, 2`.execute(db);
    const told = rows.map(({ name, column }) => `${name}.${column}`);
    const byPerson = ["account", "entry", "person_row", "photo", "stoma_row", "wear_row"];
    const staying = [
      "audit_line.account_id",
      "audit_person.person_id",
      "tombstone.account_id",
      "tombstone.person_id",
    ];
    expect(told).toEqual(
      [
        "account.account_id",
        ...byPerson.map((name) => `${name}.person_id`),
        ...tablesOfAccount.map((name) => `${name}.account_id`),
        ...staying,
      ].sort(),
    );
  });

  it("leaves a tombstone and a line without content", async () => {
    await erasure.erase(order());
    const tombstone = { clinicId, personId: edda.personId, erasedMs: now, accountId: lead };
    expect(await erasure.tombstones()).toEqual([tombstone]);
    expect(await ledger.read()).toEqual([tombstone]);
    const { lines } = await audit.page(clinicId, { personId: edda.personId, limit: 9 });
    expect(lines).toMatchObject([
      {
        action: "erasePerson",
        accountId: lead,
        objects: [
          { kind: "person", id: edda.personId },
          { kind: "reason", id: "consentWithdrawn" },
        ],
      },
    ]);
    expect(JSON.stringify(lines)).not.toMatch(/Voss|R-90412/);
    expect(await audit.verify(clinicId)).toMatchObject({ ok: true });
  });

  it("twice is harmless; of nobody, or of somebody of another clinic, is refused", async () => {
    await erasure.erase(order());
    await erasure.erase(order({ nowMs: now + 1, accountId: null }));
    expect(await erasure.tombstones()).toMatchObject([{ erasedMs: now, accountId: lead }]);
    await expect(erasure.erase(order({ personId: v4() }))).rejects.toThrow(NobodyToErase);
    await expect(erasure.erase(order({ personId: bram.personId, clinicId: v4() }))).rejects.toThrow(
      NobodyToErase,
    );
    expect(await store.entriesOfPerson(clinicId, bram.personId)).toHaveLength(2);
  });

  it("is kept whole or not at all", async () => {
    await sql`create trigger full before insert on audit_line begin select raise(abort, 'full'); end`.execute(
      db,
    );
    await expect(erasure.erase(order())).rejects.toThrow("full");
    expect(await store.entriesOfPerson(clinicId, edda.personId)).toHaveLength(2);
    expect(await erasure.tombstones()).toEqual([]);
    expect(await ledger.read()).toEqual([]);
  });

  it("matches what a rebuild of the lists would make", async () => {
    await erasure.erase(order());
    const before = await store.people(clinicId, { text: "", after: null, limit: 9 });
    const counts = await store.counts(clinicId);
    await store.rebuild();
    expect(await store.people(clinicId, { text: "", after: null, limit: 9 })).toEqual(before);
    expect(await store.counts(clinicId)).toEqual(counts);
  });
});

describe("entries", () => {
  it("cannot be deleted by anything but an erasure", async () => {
    await expect(db.deleteFrom("entry").execute()).rejects.toThrow("removed only with a person");
    await expect(db.deleteFrom("entry").where("person_id", "is", null).execute()).rejects.toThrow(
      "removed only",
    );
    await erasure.erase(order());
    await expect(db.deleteFrom("entry").execute()).rejects.toThrow("removed only");
    await expect(db.deleteFrom("tombstone").execute()).rejects.toThrow("never removed");
    await expect(db.updateTable("tombstone").set({ person_id: "x" }).execute()).rejects.toThrow(
      "never changed",
    );
  });

  it("about somebody erased are refused, whoever brings them", async () => {
    const backup: string[] = [];
    for await (const line of exportRecord(store, clinicId, { exportedAt: "2026-11-25T10:00:00Z" }))
      backup.push(line);
    await erasure.erase(order());
    await expect(store.append(edda.entries)).rejects.toThrow(ErasedError);

    const late = draft("noted", { text: "late" }, { personId: edda.personId });
    const clinic = { clinicId, details: { timeZone: "Europe/London" } };
    const accepting = acceptDrafts(store, clinic, [draft("noted", { text: 5 } as never), late], {
      author: nurse,
      nowMs: now,
    });
    await expect(accepting).rejects.toMatchObject({ code: "erased", personIds: [edda.personId] });

    const whole = await importRecord(backup, store);
    expect(whole).toMatchObject({ done: false, added: 0 });
    expect(whole.bad.map(({ faults }) => faults[0]!.problem)).toEqual([
      "was erased on lawful request",
      "was erased on lawful request",
    ]);
    expect(await importRecord(backup, store, { keepGood: true })).toMatchObject({ done: true, added: 0 });
    expect(await store.entriesOfPerson(clinicId, edda.personId)).toEqual([]);
  });
});

describe("after a restore from before the erasure", () => {
  it("the ledger takes the person away again, and the trail says so", async () => {
    await erasure.erase(order());
    const restored = await openSqliteDatabase(":memory:");
    await new SqlStore(restored).append([clinicEntry(), ...edda.entries, ...bram.entries]);
    const trail = new AuditTrail(restored);
    const again = new Erasure(restored, { audit: trail, ledger: async () => ledger });
    expect(await again.reconcile(now + 5)).toBe(1);
    expect(await new SqlStore(restored).entriesOfPerson(clinicId, edda.personId)).toEqual([]);
    expect(await again.tombstones()).toMatchObject([{ erasedMs: now, accountId: lead }]);
    expect((await trail.page(clinicId, { limit: 9 })).lines).toMatchObject([
      { action: "erasePerson", atMs: now + 5, accountId: null },
    ]);
    expect(await again.reconcile(now + 6)).toBe(0);
    expect((await trail.head(clinicId)).seq).toBe(1);
    await restored.destroy();
  });

  it("a ledger that was lost or cut short is made whole from the database", async () => {
    await erasure.erase(order());
    await erasure.erase(order({ personId: bram.personId }));
    const whole = readFileSync(ledger.file, "utf8");
    writeFileSync(ledger.file, whole.slice(0, -30));
    expect(await ledger.read()).toHaveLength(1);
    expect(await erasure.reconcile(now)).toBe(0);
    expect(await ledger.read()).toHaveLength(2);
    rmSync(ledger.file);
    await erasure.reconcile(now);
    expect(await ledger.read()).toHaveLength(2);
  });

  it("a ledger with a damaged line is not taken for whole", async () => {
    await erasure.erase(order());
    writeFileSync(ledger.file, `{"clinicId":"x"}\n${readFileSync(ledger.file, "utf8")}`);
    await expect(ledger.read()).rejects.toThrow(/damaged: line 1/);
  });
});

async function keepPhoto(personId: string): Promise<void> {
  const bytes = Buffer.from("sealed");
  await db
    .insertInto("photo")
    .values({
      clinic_id: clinicId,
      photo_id: v7(),
      person_id: personId,
      stoma_id: null,
      entry_id: null,
      taken_ms: null,
      kept_ms: now,
      width_px: 1,
      height_px: 1,
      sealed_for: "x",
      sealed_key: bytes,
      thumbnail: bytes,
      picture: bytes,
    })
    .execute();
}

async function keepAccount(accountId: string, role: string, personId: string | null): Promise<void> {
  await db
    .insertInto("account")
    .values({
      account_id: accountId,
      clinic_id: clinicId,
      sign_in_name: accountId,
      sign_in_key: accountId,
      display_name: "Somebody",
      role,
      person_id: personId,
      password_hash: null,
      second_factor: 0,
      demo: 0,
      created_ms: now,
      closed_ms: null,
    })
    .execute();
  const device = { account_id: accountId, device_hash: v4(), clinic_id: clinicId, last_ms: now };
  await db.insertInto("known_device").values(device).execute();
}
