import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Worker } from "node:worker_threads";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicId, entry, samplePerson } from "../../../../test/record/samples.ts";
import { openSqlite, type RecordStore, recordFile } from "../index.ts";

const person = samplePerson();

describe("the file", () => {
  let folder: string;
  let store: RecordStore;
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), "roundel-"));
    store = await openSqlite(recordFile(folder));
  });
  afterEach(async () => {
    await store.close();
    rmSync(folder, { recursive: true });
  });

  it("refuses to change an entry, whoever asks", async () => {
    await store.append(person.entries);
    const raw = new Database(recordFile(folder));
    expect(() => raw.prepare("update entry set body = '{}'").run()).toThrow("entries are never changed");
    raw.close();
  });

  it("waits while another program writes, and then has its turn", async () => {
    await store.append(person.entries);
    const other = new Worker(
      `const { parentPort, workerData } = require("node:worker_threads");
       const database = require("better-sqlite3")(workerData);
       database.exec("begin immediate; insert into mark (name, value) values ('other', 'was here')");
       parentPort.postMessage("writing");
       Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 300);
       database.exec("commit");`,
      { eval: true, workerData: recordFile(folder) },
    );
    await once(other, "message");
    await store.append([entry("noted", { text: "called" }, { personId: person.personId })]);
    expect(await store.mark("other")).toBe("was here");
    expect((await store.counts(clinicId)).entries).toBe(3);
    await once(other, "exit");
  });

  it("opens again with what it holds", async () => {
    await store.append(person.entries);
    await store.setMark("demo", "yes");
    await store.close();
    store = await openSqlite(recordFile(folder));
    expect(await store.counts(clinicId)).toEqual({ people: 1, active: 1, entries: 2 });
    expect(await store.mark("demo")).toBe("yes");
    expect(await store.mark("other")).toBeNull();
  });
});
