import type { Kysely } from "kysely";
import type { AuditTrail } from "../audit/index.ts";
import { lockClinic } from "../store/lock.ts";
import type { RecordTables } from "../store/schema.ts";
import { transact } from "../store/transact.ts";
import type { ErasureGround } from "./grounds.ts";
import type { Ledger } from "./ledger.ts";
import { type Removed, removePerson } from "./removing.ts";
import { type Tombstone, tombstoneFromRow, tombstoneToRow } from "./tables.ts";
import { emptyTraces } from "./traces.ts";

export interface ErasureOrder {
  clinicId: string;
  personId: string;
  ground: ErasureGround;
  /** Who does it; null at the machine itself. */
  accountId: string | null;
  sessionId: string | null;
  nowMs: number;
}

export interface Erased extends Removed {
  tombstone: Tombstone;
  /**
   * False: another program is reading the database, so that older pages with the person's data stay in its
   * write-ahead log until that program closes it.
   */
  isTraceless: boolean;
}

/** Nobody of this id is in the clinic's record. */
export class NobodyToErase extends Error {
  constructor() {
    super("this person is not in the record");
    this.name = "NobodyToErase";
  }
}

/** The only physical delete: a person with everything derived from what was written about them. */
export class Erasure {
  private readonly db: Kysely<RecordTables>;
  private readonly audit: AuditTrail;
  private readonly ledger: () => Promise<Ledger | null>;

  /** @param ledger keeps the tombstones outside the database too; none where the record has no key file */
  constructor(
    db: Kysely<RecordTables>,
    { audit, ledger }: { audit: AuditTrail; ledger?: () => Promise<Ledger> },
  ) {
    this.db = db;
    this.audit = audit;
    this.ledger = ledger ?? (async () => null);
  }

  /**
   * Erases a person: entries, projections, photographs with their keys, accounts. A tombstone and a line of the audit
   * trail stay, both without content. Erasing somebody again removes what has come in since, and changes no tombstone.
   * @throws {NobodyToErase}
   */
  async erase({ ground, ...order }: ErasureOrder): Promise<Erased> {
    const { clinicId, personId, accountId, sessionId, nowMs } = order;
    const ledger = await this.ledger();
    await this.audit.open();
    const wanted: Tombstone = { clinicId, personId, erasedMs: nowMs, accountId };
    const removed = await transact(this.db, async (trx) => {
      await lockClinic(trx, clinicId);
      const before = await tombstoneIn(trx, clinicId, personId);
      if (!before && !(await isKnown(trx, clinicId, personId))) throw new NobodyToErase();
      return this.removeIn(trx, before ?? wanted, [
        {
          atMs: nowMs,
          accountId,
          sessionId,
          action: "erasePerson",
          objects: [
            { kind: "person", id: personId },
            { kind: "reason", id: ground },
          ],
          outcome: "done",
        },
      ]);
    });
    await ledger?.add([removed.tombstone]);
    return { ...removed, isTraceless: await emptyTraces(this.db) };
  }

  /** Everyone who was erased from any clinic of this database, in order of time. */
  async tombstones(): Promise<Tombstone[]> {
    const rows = await this.db.selectFrom("tombstone").selectAll().orderBy("erased_ms").execute();
    return rows.map(tombstoneFromRow);
  }

  /**
   * Erases again whoever a restore or an import may have brought back.
   * @returns how many people had come back
   */
  async replay(tombstones: readonly Tombstone[], nowMs: number): Promise<number> {
    await this.audit.open();
    let cameBack = 0;
    for (const tombstone of tombstones) {
      const { clinicId, personId } = tombstone;
      cameBack += await transact(this.db, async (trx) => {
        await lockClinic(trx, clinicId);
        const isBack = await isKnown(trx, clinicId, personId);
        if (!isBack && (await tombstoneIn(trx, clinicId, personId))) return 0;
        const objects = [
          { kind: "person", id: personId } as const,
          { kind: "reason", id: "replayed" } as const,
        ];
        const line = {
          atMs: nowMs,
          accountId: null,
          sessionId: null,
          action: "erasePerson",
          objects,
        } as const;
        await this.removeIn(trx, tombstone, [{ ...line, outcome: "done" }]);
        return isBack ? 1 : 0;
      });
    }
    if (cameBack > 0) await emptyTraces(this.db);
    return cameBack;
  }

  /**
   * Brings database and ledger to the same tombstones: what a restored database does not know is erased in it again,
   * what a lost ledger does not know is written there again.
   * @returns how many people had come back
   */
  async reconcile(nowMs: number): Promise<number> {
    const ledger = await this.ledger();
    if (!ledger) return 0;
    const written = await ledger.read();
    const cameBack = await this.replay(written, nowMs);
    const known = new Set(written.map(placeOf));
    await ledger.add((await this.tombstones()).filter((one) => !known.has(placeOf(one))));
    return cameBack;
  }

  private async removeIn(
    trx: Kysely<RecordTables>,
    tombstone: Tombstone,
    lines: Parameters<AuditTrail["appendIn"]>[2],
  ): Promise<Removed & { tombstone: Tombstone }> {
    await trx
      .insertInto("tombstone")
      .values(tombstoneToRow(tombstone))
      .onConflict((conflict) => conflict.columns(["clinic_id", "person_id"]).doNothing())
      .execute();
    const removed = await removePerson(trx, tombstone.clinicId, tombstone.personId);
    await this.audit.appendIn(trx, tombstone.clinicId, lines);
    return { ...removed, tombstone };
  }
}

async function tombstoneIn(
  trx: Kysely<RecordTables>,
  clinicId: string,
  personId: string,
): Promise<Tombstone | null> {
  const row = await trx
    .selectFrom("tombstone")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .where("person_id", "=", personId)
    .executeTakeFirst();
  return row ? tombstoneFromRow(row) : null;
}

async function isKnown(trx: Kysely<RecordTables>, clinicId: string, personId: string): Promise<boolean> {
  for (const table of ["entry", "photo", "account"] as const) {
    const row = await trx
      .selectFrom(table)
      .select("person_id")
      .where("clinic_id", "=", clinicId)
      .where("person_id", "=", personId)
      .limit(1)
      .executeTakeFirst();
    if (row) return true;
  }
  return false;
}

function placeOf({ clinicId, personId }: Tombstone): string {
  return `${clinicId} ${personId}`;
}
