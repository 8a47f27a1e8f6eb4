import { type Kysely, sql } from "kysely";
import { expect } from "vitest";
import type { AuditTrail } from "../../src/record/audit/index.ts";
import { checkEntry, type Entry } from "../../src/record/entry/index.ts";
import type { OpenRecord } from "../../src/record/open/index.ts";
import type { RecordTables } from "../../src/record/store/schema.ts";

/** Everything of a clinic, in order. */
export async function allEntries({ store }: OpenRecord, clinicId: string): Promise<Entry[]> {
  const entries: Entry[] = [];
  for (let cursor = 0; ; ) {
    const page = await store.entriesAfter(clinicId, cursor, 1000);
    if (page.length === 0) return entries;
    cursor = page.at(-1)!.cursor;
    entries.push(...page.map(({ cursor: _place, ...entry }) => entry as Entry));
  }
}

/**
 * The file is sound, every acknowledged entry is there, every entry is whole, batches are there whole or not at all,
 * the audit trail holds and has each entry's line.
 */
export async function expectWhole(
  record: OpenRecord,
  { clinicId, acknowledged, batches }: { clinicId: string; acknowledged: string[]; batches: Entry[][] },
): Promise<Entry[]> {
  const { rows } = await sql<{ integrity_check: string }>`pragma integrity_check(1)`.execute(record.db);
  expect(rows).toEqual([{ integrity_check: "ok" }]);
  const entries = await allEntries(record, clinicId);
  const there = new Set(entries.map(({ id }) => id));
  expect(acknowledged.filter((id) => !there.has(id))).toEqual([]);
  for (const entry of entries) expect(checkEntry(entry).faults).toBeUndefined();
  const torn = batches.filter((batch) => {
    const kept = batch.filter(({ id }) => there.has(id)).length;
    return kept !== 0 && kept !== batch.length;
  });
  expect(torn).toEqual([]);
  await expectHolding(record.audit, clinicId, there);
  return entries;
}

async function expectHolding(audit: AuditTrail, clinicId: string, entryIds: Set<string>): Promise<void> {
  expect(await audit.verify(clinicId)).toMatchObject({ ok: true, unsealed: 0 });
  const named = new Set<string>();
  for await (const { objects } of audit.lines(clinicId)) {
    for (const { kind, id } of objects) if (kind === "entry") named.add(id);
  }
  // What was sent again after it had been kept unheard has two lines.
  expect([...named].sort()).toEqual([...entryIds].sort());
}

const derived = ["person_row", "stoma_row", "wear_row", "clinic_row"] as const;

/** What is derived from the entries is what a rebuild makes of them. */
export async function expectRebuildTheSame({ db, store }: Pick<OpenRecord, "db" | "store">): Promise<void> {
  const before = await rowsOf(db);
  await store.rebuild();
  expect(await rowsOf(db)).toEqual(before);
}

async function rowsOf(db: Kysely<RecordTables>): Promise<Record<string, string[]>> {
  const tables = await Promise.all(
    derived.map(async (table) => {
      const rows = await db.selectFrom(table).selectAll().execute();
      return [table, rows.map((row) => JSON.stringify(row)).sort()] as const;
    }),
  );
  return Object.fromEntries(tables);
}
