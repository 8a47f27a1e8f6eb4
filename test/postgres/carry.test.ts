import { existsSync, readdirSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { digestsOf } from "../../src/record/carry/dump.ts";
import { backUp, move, proveRecoveryKey, restore, withSnapshot } from "../../src/record/carry/index.ts";
import { checkRecord, type Finding } from "../../src/record/check/index.ts";
import { enforceRecoveryKey, newRecoveryKey, rotateKeys } from "../../src/record/keys/index.ts";
import { type OpenRecord, openRecord } from "../../src/record/open/index.ts";
import { resealPhotos } from "../../src/record/photo/index.ts";
import { type Bench, keepPhoto, keptRecord, newBench } from "../record/kept.ts";
import { clinicDetails, clinicEntry, clinicId, entry, samplePerson } from "../record/samples.ts";
import { emptyDatabase, inDatabase, onServer } from "./database.ts";

const otherClinic = "1c7c9a52-6a0e-4c9f-8d53-0f6f3a1c2d10";

/** A record of two clinics on SQLite: people, readings, names in several scripts, a photograph, an erased person. */
let bench: Bench;
let record: OpenRecord;
let personId: string;
let photoId: string;
beforeAll(async () => {
  bench = newBench();
  ({ record, personId } = await keptRecord(bench));
  photoId = await keepPhoto(record, personId);
  const names = [
    "Ægir Þórsson",
    "Zoë Ångström",
    "大山 花子",
    'O\'Brien "Bo"',
    "back\\slash 🙂",
    "a",
    "B",
    "_",
    "é",
  ];
  const people = names.map((name) => samplePerson({ name }));
  await record.store.append(people.flatMap(({ entries }) => entries));
  const elsewhere = samplePerson({ name: "Somebody of the other clinic" });
  const moved = [clinicEntry({ ...clinicDetails, name: "Second clinic" }), ...elsewhere.entries];
  await record.store.append(moved.map((one) => ({ ...one, clinicId: otherClinic })));
  const erased = {
    clinicId,
    personId: people[0]!.personId,
    ground: "ordered",
    accountId: null,
    sessionId: null,
  } as const;
  await record.erasure.erase({ ...erased, nowMs: Date.now() });
}, 60_000);
afterAll(async () => {
  await record.close();
  bench.remove();
});

const tablesOf = (one: OpenRecord) => withSnapshot(one.db, (snapshot) => digestsOf(snapshot));

async function findingsIn({ db }: OpenRecord): Promise<Finding[]> {
  const found: Finding[] = [];
  const places = { keyFile: bench.keyFile };
  await checkRecord({ db }, { places, onFinding: (finding) => void found.push(finding) });
  return found;
}

async function onDatabase<T>(url: string, work: (one: OpenRecord) => Promise<T>): Promise<T> {
  const one = await openRecord({ url, keyFile: bench.keyFile });
  try {
    return await work(one);
  } finally {
    await one.close();
  }
}

describe("a record that moves to PostgreSQL", () => {
  it("is there as it was here, table by table, and works on: photographs, trail, cursors, lists", async () => {
    const url = await emptyDatabase();
    const before = await tablesOf(record);
    const { tables } = await move(record, { to: { url }, keyFile: bench.keyFile });
    expect(tables).toEqual(before);
    expect(await tablesOf(record)).toEqual(before);
    await onDatabase(url, async (there) => {
      expect(await there.photos.open(clinicId, photoId)).not.toBeNull();
      expect(await findingsIn(there)).toEqual([]);
      const { lines } = await there.audit.page(clinicId, { limit: 1 });
      expect(lines[0]).toMatchObject({ action: "moveRecord" });
      const last = (await record.store.entriesAfter(clinicId, 0, 1e6)).at(-1)!.cursor;
      const [next] = await there.store.append([entry("noted", { text: "on the server" }, { personId })]);
      expect(next!.cursor).toBeGreaterThan(last);
    });
  });

  it("whose server sorts by another language is the same there too", async () => {
    const german = await emptyDatabase();
    const name = new URL(german).pathname.slice(1);
    await onServer(`drop database ${name}`);
    await onServer(
      `create database ${name} template template0 encoding utf8 locale_provider icu icu_locale 'de-DE' locale 'C'`,
    );
    const passkey = {
      clinic_id: clinicId,
      account_id: "a",
      rp_id: "localhost",
      name: "key",
      public_key: "",
      transports: "[]",
    };
    const ids = ["b", "B", "a_", "a-", "A", "Z", "z", "0", "ä"];
    await record.db
      .insertInto("passkey")
      .values(
        ids.map((credential_id) => ({
          ...passkey,
          credential_id,
          counter: 0,
          created_ms: 0,
          last_used_ms: null,
        })),
      )
      .execute();
    const { tables } = await move(record, { to: { url: german }, keyFile: bench.keyFile });
    expect(tables.passkey!.rows).toBe(ids.length);
    const { rows } = await inDatabase(german, "select credential_id from passkey order by credential_id");
    expect(rows.map((row) => row.credential_id)).not.toEqual([...ids].sort());
  });

  it("and back is the same again", async () => {
    const url = await emptyDatabase();
    const { tables } = await move(record, { to: { url }, keyFile: bench.keyFile });
    const dataDir = bench.path("back");
    const back = await onDatabase(url, (there) => move(there, { to: { dataDir }, keyFile: bench.keyFile }));
    // The trail and the counts of lines alone have grown: by the line that says that it was moved.
    for (const own of ["audit_line", "audit_head"]) for (const one of [tables, back.tables]) delete one[own];
    expect(back.tables).toEqual(tables);
    const home = await openRecord({ dataDir, keyFile: bench.keyFile });
    expect(await home.photos.open(clinicId, photoId)).not.toBeNull();
    expect(await findingsIn(home)).toEqual([]);
    await home.close();
  });

  it("goes nowhere where something is already, and a second time neither", async () => {
    const url = await emptyDatabase();
    await move(record, { to: { url }, keyFile: bench.keyFile });
    await expect(move(record, { to: { url }, keyFile: bench.keyFile })).rejects.toMatchObject({
      code: "notEmpty",
    });
    const foreign = await emptyDatabase();
    await inDatabase(foreign, "create table something_else (id text)");
    const there = move(record, { to: { url: foreign }, keyFile: bench.keyFile });
    await expect(there).rejects.toMatchObject({ code: "notEmpty" });
    const { rows } = await inDatabase(foreign, "select relname from pg_class where relname = 'entry'");
    expect(rows).toEqual([]);
  });

  it("that is stopped leaves no row behind, and can go again", async () => {
    const url = await emptyDatabase();
    for (const step of ["onProgress", "onComparing"] as const) {
      const stop = new AbortController();
      const going = move(record, {
        to: { url },
        keyFile: bench.keyFile,
        signal: stop.signal,
        [step]: () => stop.abort(),
      });
      await expect(going).rejects.toMatchObject({ name: "AbortError" });
      expect((await inDatabase(url, "select count(*)::int as rows from entry")).rows).toEqual([{ rows: 0 }]);
    }
    await move(record, { to: { url }, keyFile: bench.keyFile });
    const dataDir = bench.path("stopped");
    const stop = new AbortController();
    const back = onDatabase(url, (there) =>
      move(there, {
        to: { dataDir },
        keyFile: bench.keyFile,
        signal: stop.signal,
        onProgress: () => stop.abort(),
      }),
    );
    await expect(back).rejects.toMatchObject({ name: "AbortError" });
    expect(existsSync(dataDir) ? readdirSync(dataDir) : []).toEqual([]);
  });

  it("that arrives with one letter changed is not kept", async () => {
    const url = await emptyDatabase();
    await onDatabase(url, async () => {});
    // A server that writes something else than it was sent: an altered case, which no constraint notices.
    await inDatabase(
      url,
      `create function alters() returns trigger language plpgsql as $$ begin new.name = upper(new.name); return new; end $$;
       create trigger alters before insert on person_row for each row execute function alters()`,
    );
    const going = move(record, { to: { url }, keyFile: bench.keyFile });
    await expect(going).rejects.toMatchObject({
      code: "notEqual",
      message: expect.stringContaining("person_row"),
    });
    expect((await inDatabase(url, "select count(*)::int as rows from entry")).rows).toEqual([{ rows: 0 }]);
  });
});

describe("a record on PostgreSQL", () => {
  let url: string;
  beforeAll(async () => {
    url = await emptyDatabase();
    await move(record, { to: { url }, keyFile: bench.keyFile });
  });

  it("is backed up while it is written to, and restored into an empty database with the recovery key alone", async () => {
    await onDatabase(url, async (there) => {
      const keys = await there.keys();
      const made = await newRecoveryKey();
      const reseal = () => resealPhotos(there.db, keys);
      await enforceRecoveryKey(made, { db: there.db, keys, reseal });
      expect(await proveRecoveryKey(there, made.identity)).toMatchObject({ photos: 1 });
      const acknowledged: string[] = [];
      let isBackedUp = false;
      const writing = (async () => {
        while (!isBackedUp) {
          const note = entry("noted", { text: "meanwhile" }, { personId });
          await there.store.append([note]);
          acknowledged.push(note.id);
        }
      })();
      while (acknowledged.length < 3) await new Promise((resolve) => setTimeout(resolve, 5));
      const atLeast = acknowledged.length;
      const { file } = await backUp(there, { to: bench.path("of-postgres") });
      isBackedUp = true;
      await writing;
      await rotateKeys({ db: there.db, keys, reseal });
      const empty = await emptyDatabase();
      const newKeyFile = bench.path("new machine", "record.key");
      const to = { url: empty };
      const done = await restore({ from: file, to, keyFile: newKeyFile, recoveryKey: made.identity });
      expect(done).toMatchObject({ photosLost: 0, setAside: null });
      const restored = await openRecord({ url: empty, keyFile: newKeyFile });
      const notes = (await restored.store.entriesOfPerson(clinicId, personId)).filter(
        ({ kind }) => kind === "noted",
      );
      expect(notes.map(({ id }) => id)).toEqual(acknowledged.slice(0, notes.length));
      expect(notes.length).toBeGreaterThanOrEqual(atLeast);
      expect(await restored.photos.open(clinicId, photoId)).not.toBeNull();
      expect(await restored.audit.verify(clinicId)).toMatchObject({ ok: true });
      await restored.close();
      const again = restore({ from: file, to, keyFile: newKeyFile, recoveryKey: made.identity });
      await expect(again).rejects.toMatchObject({ code: "notEmpty" });
    });
  });

  it("is checked: a list that differs and an entry that cannot be read are named", async () => {
    const broken = await emptyDatabase();
    await move(record, { to: { url: broken }, keyFile: bench.keyFile });
    await inDatabase(broken, "update person_row set name = 'Somebody' where person_id = $1", [personId]);
    await inDatabase(
      broken,
      `alter table entry disable trigger all;
       update entry set body = '{"text":5}' where kind = 'measured' and person_id = '${personId}' and cursor in (select max(cursor) from entry where kind = 'measured')`,
    );
    await onDatabase(broken, async (there) => {
      const found = await findingsIn(there);
      expect(found.map(({ part }) => part)).toEqual(expect.arrayContaining(["entries", "lists"]));
      expect(JSON.stringify(found)).not.toContain("Somebody");
    });
  });
});
