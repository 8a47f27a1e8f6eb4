import { v4 } from "uuid";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { AuditTrail, linesOfWrite } from "../../src/record/audit/index.ts";
import { Erasure } from "../../src/record/erasure/index.ts";
import { ErasedError } from "../../src/record/store/index.ts";
import { openPostgresDatabase } from "../../src/record/store/postgres/index.ts";
import { SqlStore } from "../../src/record/store/sqlStore.ts";
import { clinicEntry, clinicId, entry, now, samplePerson } from "../record/samples.ts";
import { emptyDatabase } from "./database.ts";

const edda = samplePerson();
const bram = samplePerson({ name: "Bram Okonjo" });
const key = async () => new Uint8Array(32).fill(7);

/** Two processes of the bench on one database. */
async function process(url: string) {
  const db = await openPostgresDatabase(url);
  const audit = new AuditTrail(db, { key });
  await audit.open();
  return { db, audit, store: new SqlStore(db), erasure: new Erasure(db, { audit }) };
}

let one: Awaited<ReturnType<typeof process>>;
let two: Awaited<ReturnType<typeof process>>;
beforeEach(async () => {
  const url = await emptyDatabase();
  one = await process(url);
  two = await process(url);
  await one.store.append([clinicEntry(), ...edda.entries, ...bram.entries]);
});
afterEach(async () => {
  await one.db.destroy();
  await two.db.destroy();
});

const who = { atMs: now, accountId: null, sessionId: null } as const;
const looked = (atMs: number) =>
  ({
    ...who,
    atMs,
    action: "readPerson",
    objects: [{ kind: "person", id: edda.personId }],
    outcome: "done",
  }) as const;

describe("the audit trail of several processes", () => {
  it("is one chain, whoever reads and writes at once", async () => {
    const notes = Array.from({ length: 60 }, (_, index) =>
      entry("noted", { text: `No ${index}` }, { personId: edda.personId }),
    );
    await Promise.all([
      ...notes.map((note, index) => {
        const { store, audit } = index % 2 === 0 ? one : two;
        const writing = linesOfWrite(audit, { ...who, action: "writeEntries" });
        return store.append([note], { alongside: writing([note]) });
      }),
      ...Array.from({ length: 60 }, (_, index) =>
        (index % 2 === 0 ? one : two).audit.append(clinicId, [looked(index)]),
      ),
    ]);
    expect(await one.audit.verify(clinicId)).toMatchObject({ ok: true, lines: 120, unsealed: 0 });
    const { lines } = await two.audit.page(clinicId, { personId: edda.personId, limit: 500 });
    expect(lines).toHaveLength(120);
    expect(lines[0]).toMatchObject({ seq: 120, atMs: expect.any(Number) });
  });

  it("can neither be changed nor shortened through the database", async () => {
    await one.audit.append(clinicId, [looked(1), looked(2)]);
    await expect(one.db.updateTable("audit_line").set({ at_ms: 0 }).execute()).rejects.toThrow(
      "never changed",
    );
    await expect(one.db.deleteFrom("audit_line").execute()).rejects.toThrow("never removed");
  });
});

describe("erasing a person", () => {
  const order = {
    clinicId,
    personId: edda.personId,
    ground: "objected",
    sessionId: null,
    nowMs: now,
  } as const;

  it("is the only way in which an entry leaves the record", async () => {
    await expect(one.db.deleteFrom("entry").execute()).rejects.toThrow("removed only with a person");
    expect(await one.erasure.erase({ ...order, accountId: v4() })).toMatchObject({
      entries: 2,
      isTraceless: true,
    });
    expect(await two.store.entriesOfPerson(clinicId, edda.personId)).toEqual([]);
    expect(await two.store.counts(clinicId)).toEqual({ people: 1, active: 1, entries: 3 });
    await expect(one.db.deleteFrom("entry").execute()).rejects.toThrow("removed only with a person");
    await expect(one.db.deleteFrom("tombstone").execute()).rejects.toThrow("never removed");
    expect(await one.audit.verify(clinicId)).toMatchObject({ ok: true, lines: 1 });
  });

  it("while others write about them leaves nothing behind, whoever comes first", async () => {
    const writes = Array.from({ length: 20 }, () =>
      two.store.append([entry("noted", { text: "late" }, { personId: edda.personId })]).then(
        () => "kept",
        (error) => (error instanceof ErasedError ? "refused" : String(error)),
      ),
    );
    const erased = one.erasure.erase({ ...order, accountId: null });
    const ends = new Set(await Promise.all(writes));
    await erased;
    expect([...ends].filter((end) => end !== "kept" && end !== "refused")).toEqual([]);
    expect(await one.store.entriesOfPerson(clinicId, edda.personId)).toEqual([]);
  });
});
