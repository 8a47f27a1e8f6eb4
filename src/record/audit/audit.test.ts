import { type Kysely, sql } from "kysely";
import { v4 } from "uuid";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicId } from "../../../test/record/samples.ts";
import type { RecordTables } from "../store/schema.ts";
import { openSqliteDatabase } from "../store/sqlite/index.ts";
import { type AuditEvent, AuditTrail, exportAudit } from "./index.ts";
import { linesAfter } from "./line.ts";

const bytes = Uint8Array.from({ length: 32 }, (_, index) => index);
const key = async () => bytes;
const otherClinicId = v4();
const [edda, bram] = [v4(), v4()];
const [ines, tom] = [v4(), v4()];

const read = (personId: string, accountId: string, atMs = 1): AuditEvent => ({
  atMs,
  accountId,
  sessionId: null,
  action: "readPerson",
  objects: [{ kind: "person", id: personId }],
  outcome: "done",
});

let db: Kysely<RecordTables>;
let trail: AuditTrail;
beforeEach(async () => {
  db = await openSqliteDatabase(":memory:");
  trail = new AuditTrail(db, { key });
  await trail.open();
});
afterEach(() => db.destroy());

/** What somebody can do who has the database file and no respect for its rules. */
const tamper = async (statement: string) => {
  await sql`drop trigger if exists audit_line_refuses_update`.execute(db);
  await sql`drop trigger if exists audit_line_refuses_delete`.execute(db);
  await sql.raw(statement).execute(db);
};
const nine = () =>
  trail.append(
    clinicId,
    Array.from({ length: 9 }, (_, at) => read(edda, ines, at)),
  );

describe("a trail", () => {
  it("that nobody touched holds, and says where it ends", async () => {
    expect(await trail.verify(clinicId)).toMatchObject({ ok: true, lines: 0 });
    await nine();
    const head = await trail.head(clinicId);
    expect(head.seq).toBe(9);
    expect(await trail.verify(clinicId, { head })).toEqual({ ok: true, lines: 9, head, unsealed: 0 });
  });

  it("is each clinic's own", async () => {
    await nine();
    await trail.append(otherClinicId, [read(bram, tom)]);
    expect((await trail.head(otherClinicId)).seq).toBe(1);
    expect((await trail.page(otherClinicId, { limit: 9 })).lines).toHaveLength(1);
    expect(await trail.verify(clinicId)).toMatchObject({ ok: true, lines: 9 });
  });

  it("keeps a line with what the same transaction writes, or loses both", async () => {
    const write = (fails: boolean) =>
      db.transaction().execute(async (trx) => {
        await trx
          .insertInto("mark")
          .values({ name: `m${fails}`, value: "1" })
          .execute();
        await trail.appendIn(trx, clinicId, [read(edda, ines)]);
        if (fails) throw new Error("no room");
      });
    await write(false);
    await expect(write(true)).rejects.toThrow("no room");
    expect(await trail.head(clinicId)).toMatchObject({ seq: 1 });
    expect(await db.selectFrom("mark").select("name").where("name", "like", "m%").execute()).toHaveLength(1);
    expect(await trail.verify(clinicId)).toMatchObject({ ok: true, lines: 1 });
  });

  it("takes many at once, each in a place of its own", async () => {
    await Promise.all(Array.from({ length: 700 }, (_, at) => trail.append(clinicId, [read(edda, ines, at)])));
    expect(await trail.verify(clinicId)).toMatchObject({ ok: true, lines: 700 });
    const { lines } = await trail.page(clinicId, { limit: 700 });
    expect(new Set(lines.map(({ atMs }) => atMs)).size).toBe(700);
  });

  it("tells a writer whose line could not be kept, and serves the next", async () => {
    await sql`create trigger full before insert on audit_line when new.at_ms = 13
      begin select raise(abort, 'full'); end`.execute(db);
    await expect(trail.append(clinicId, [read(edda, ines, 13)])).rejects.toThrow("full");
    await trail.append(clinicId, [read(edda, ines, 14)]);
    expect(await trail.verify(clinicId)).toMatchObject({ ok: true, lines: 1 });
  });

  it("refuses changes and removals as they are usually made", async () => {
    await nine();
    await expect(db.updateTable("audit_line").set({ at_ms: 0 }).execute()).rejects.toThrow("never changed");
    await expect(db.deleteFrom("audit_line").execute()).rejects.toThrow("never removed");
  });
});

describe("a trail that somebody tampered with", () => {
  beforeEach(nine);
  const swap = (a: number, b: number) => `update audit_line set seq = -1 where seq = ${a};
    update audit_line set seq = ${a} where seq = ${b}; update audit_line set seq = ${b} where seq = -1`;

  it.each([
    ["a line removed", ["delete from audit_line where seq = 4"], 4, "missing"],
    ["the first line removed", ["delete from audit_line where seq = 1"], 1, "missing"],
    [
      "a line removed and the rest moved up",
      ["delete from audit_line where seq = 4", "update audit_line set seq = seq - 1 where seq > 4"],
      4,
      "displaced",
    ],
    ["another account named", [`update audit_line set account_id = '${tom}' where seq = 5`], 5, "altered"],
    ["another time", ["update audit_line set at_ms = 99 where seq = 9"], 9, "altered"],
    ["another outcome", ["update audit_line set outcome = 'refused' where seq = 2"], 2, "altered"],
    ["other objects", ["update audit_line set objects = '[]' where seq = 1"], 1, "altered"],
    ["objects that are no JSON", ["update audit_line set objects = '{' where seq = 6"], 6, "altered"],
    ["two lines in each other's place", swap(3, 6).split(";"), 3, "displaced"],
    ["the last lines cut off", ["delete from audit_line where seq > 7"], 8, "cutOff"],
    ["everything gone", ["delete from audit_line"], 1, "cutOff"],
    [
      "a line put in between",
      [
        "update audit_line set seq = -seq - 1 where seq > 4",
        "update audit_line set seq = -seq where seq < 0",
        `insert into audit_line select clinic_id, 5, at_ms, account_id, session_id, action, objects, outcome,
          hash, hash from audit_line where seq = 4`,
      ],
      5,
      "altered",
    ],
    [
      "a line put after the end",
      [
        `insert into audit_line select clinic_id, 10, at_ms, account_id, session_id, action, objects, outcome,
          hash, hash from audit_line where seq = 9`,
      ],
      10,
      "beyondHead",
    ],
    ["a line hidden from a person's list", ["delete from audit_person where seq = 3"], 3, "misfiled"],
    [
      "a line listed under another",
      [`update audit_person set person_id = '${bram}' where seq = 7`],
      7,
      "misfiled",
    ],
    ["the head gone", ["delete from audit_head"], 1, "beyondHead"],
    ["the head moved back", ["update audit_head set seq = 8"], 8, "notTheHead"],
  ] as const)("by %s is found at the first bad line", async (_what, statements, seq, fault) => {
    for (const statement of statements) await tamper(statement);
    const found = await trail.verify(clinicId);
    expect(found).toMatchObject({ ok: false, seq, fault });
    expect(found.ok === false && found.sentence).toMatch(new RegExp(`line ${seq}\\b`, "i"));
  });

  it("by cutting it off with its head is found by a head that was written down", async () => {
    const head = await trail.head(clinicId);
    const { lines } = await trail.page(clinicId, { limit: 9 });
    const seventh = lines.find(({ seq }) => seq === 7)!;
    await tamper("delete from audit_line where seq > 7");
    await tamper(`update audit_head set seq = 7, hash = '${seventh.hash}'`);
    expect(await trail.verify(clinicId)).toMatchObject({ ok: true, lines: 7 });
    expect(await trail.verify(clinicId, { head })).toMatchObject({ ok: false, seq: 8, fault: "cutOff" });
  });

  it("by making it anew without the key is found: a sealed trail has no unsealed line after its first", async () => {
    const { lines } = await trail.page(clinicId, { limit: 9 });
    const third = lines.find(({ seq }) => seq === 3)!;
    const [forged] = linesAfter({ seq: 3, hash: third.hash }, clinicId, [read(bram, tom)]);
    await tamper(
      `update audit_line set objects = '${JSON.stringify(forged!.objects)}', account_id = '${tom}', at_ms = 1,
        hash = '${forged!.hash}' where seq = 4`,
    );
    expect(await trail.verify(clinicId)).toMatchObject({ ok: false, seq: 4, fault: "altered" });
  });

  it("by making all of it anew is found by the head that was written down, and shows as unsealed", async () => {
    const head = await trail.head(clinicId);
    await tamper("delete from audit_line");
    await tamper("delete from audit_head");
    await tamper("delete from audit_person");
    await new AuditTrail(db).append(
      clinicId,
      Array.from({ length: 9 }, () => read(bram, tom)),
    );
    expect(await trail.verify(clinicId)).toMatchObject({ ok: true, unsealed: 9 });
    expect(await trail.verify(clinicId, { head })).toMatchObject({ ok: false, seq: 9, fault: "notTheHead" });
  });
});

describe("lines from before there was a key", () => {
  it("hold at the beginning, and are counted", async () => {
    await new AuditTrail(db).append(clinicId, [read(edda, ines), read(edda, ines)]);
    await trail.append(clinicId, [read(edda, ines)]);
    expect(await trail.verify(clinicId)).toMatchObject({ ok: true, lines: 3, unsealed: 2 });
    await new AuditTrail(db).append(clinicId, [read(edda, ines)]);
    expect(await trail.verify(clinicId)).toMatchObject({ ok: false, seq: 4, fault: "altered" });
  });

  it("of a sealed trail do not hold under another key", async () => {
    await nine();
    const other = new AuditTrail(db, { key: async () => new Uint8Array(32) });
    expect(await other.verify(clinicId)).toMatchObject({ ok: false, seq: 1, fault: "altered" });
  });
});

describe("looking through a trail", () => {
  beforeEach(async () => {
    await trail.append(clinicId, [read(edda, ines), read(bram, ines), read(edda, tom), read(bram, tom)]);
    await trail.append(otherClinicId, [read(edda, ines)]);
  });
  const seqs = async (query: Partial<Parameters<AuditTrail["page"]>[1]>) =>
    (await trail.page(clinicId, { limit: 10, ...query })).lines.map(({ seq }) => seq);

  it("finds what was done about a person, and by an account, newest first", async () => {
    expect(await seqs({})).toEqual([4, 3, 2, 1]);
    expect(await seqs({ personId: edda })).toEqual([3, 1]);
    expect(await seqs({ accountId: tom })).toEqual([4, 3]);
    expect(await seqs({ accountId: tom, personId: edda })).toEqual([3]);
    expect(await seqs({ personId: v4() })).toEqual([]);
  });

  it("goes page by page", async () => {
    const first = await trail.page(clinicId, { limit: 3 });
    expect(first.next).toBe(2);
    const second = await trail.page(clinicId, { limit: 3, before: first.next! });
    expect(second).toMatchObject({ lines: [{ seq: 1 }], next: null });
  });

  it("exports every line with what it takes to check it", async () => {
    const text: string[] = [];
    for await (const line of exportAudit(trail, clinicId, { exportedAt: "2026-11-25T10:00:00Z" }))
      text.push(line);
    const [header, ...lines] = text.map((line) => JSON.parse(line));
    expect(header).toMatchObject({ format: "roundel-audit", clinicId, head: await trail.head(clinicId) });
    expect(lines.map(({ seq }) => seq)).toEqual([1, 2, 3, 4]);
    expect(lines[3].hash).toBe(header.head.hash);
    expect(lines[1].prev).toBe(lines[0].hash);
  });
});
