import type { Kysely } from "kysely";
import { lockClinic } from "../store/lock.ts";
import type { RecordTables } from "../store/schema.ts";
import { transact } from "../store/transact.ts";
import { type AuditEvent, type AuditHead, type AuditLine, emptyHead, linesAfter, peopleOf } from "./line.ts";
import { headFromRow, lineFromRow, lineToRow } from "./tables.ts";
import { ChainBroken, ChainWalk, type Verification } from "./verify.ts";

/** Rows in one statement, and lines read at once. */
const batchSize = 500;

/** Most lines that wait for each other to be written together. */
const mostTogether = 200;

export interface AuditQuery {
  personId?: string;
  accountId?: string;
  /** Lines before this one: the `next` of a page. */
  before?: number;
  limit: number;
}

export interface AuditPage {
  /** Newest first. */
  lines: AuditLine[];
  next: number | null;
}

interface Waiting {
  clinicId: string;
  events: readonly AuditEvent[];
  written(): void;
  failed(error: unknown): void;
}

/** Who saw and changed what: one hash chain a clinic, to which lines are only ever added. */
export class AuditTrail {
  private readonly db: Kysely<RecordTables>;
  private readonly keyOnce: () => Promise<Uint8Array | undefined>;
  private sealing: { key: Uint8Array | undefined } | null = null;
  private readonly waiting: Waiting[] = [];
  private isWriting = false;

  /**
   * @param key seals the lines, so that nobody who can write to the database alone can make new ones that hold; asked
   *   for when the trail is opened
   */
  constructor(db: Kysely<RecordTables>, { key }: { key?: () => Promise<Uint8Array> } = {}) {
    this.db = db;
    this.keyOnce = key ?? (async () => undefined);
  }

  /** Gets the key ready; to be done before a transaction in which {@link appendIn} adds lines. @throws {KeyFault} */
  async open(): Promise<void> {
    this.sealing ??= { key: await this.keyOnce() };
  }

  /** Adds lines to a clinic's chain inside the caller's transaction: they are kept or lost with what it writes. */
  async appendIn(trx: Kysely<RecordTables>, clinicId: string, events: readonly AuditEvent[]): Promise<void> {
    if (events.length === 0) return;
    // Opening it here would ask the database for its key while the transaction holds the database.
    if (!this.sealing) throw new Error("the audit trail is opened before the transaction");
    await lockClinic(trx, clinicId, "audit");
    const lines = linesAfter(await headIn(trx, clinicId), clinicId, events, this.sealing.key);
    const people = lines.flatMap((line) =>
      peopleOf(line).map((id) => ({ clinic_id: clinicId, person_id: id, seq: line.seq })),
    );
    for (let from = 0; from < lines.length; from += batchSize) {
      const rows = lines.slice(from, from + batchSize).map(lineToRow);
      await trx.insertInto("audit_line").values(rows).execute();
    }
    for (let from = 0; from < people.length; from += batchSize) {
      const rows = people.slice(from, from + batchSize);
      await trx.insertInto("audit_person").values(rows).execute();
    }
    const { seq, hash } = lines.at(-1)!;
    await trx
      .insertInto("audit_head")
      .values({ clinic_id: clinicId, seq, hash })
      .onConflict((conflict) => conflict.column("clinic_id").doUpdateSet({ seq, hash }))
      .execute();
  }

  /** Adds lines by themselves; resolves once they are on disk. Those that come meanwhile go together. */
  append(clinicId: string, events: readonly AuditEvent[]): Promise<void> {
    return new Promise((written, failed) => {
      this.waiting.push({ clinicId, events, written, failed });
      if (!this.isWriting) void this.writeWaiting();
    });
  }

  /** Where a clinic's chain ends now. */
  head(clinicId: string): Promise<AuditHead> {
    return headIn(this.db, clinicId);
  }

  /** Lines about a person or by an account, the newest first. */
  async page(clinicId: string, { personId, accountId, before, limit }: AuditQuery): Promise<AuditPage> {
    let query = this.db.selectFrom("audit_line").selectAll().where("clinic_id", "=", clinicId);
    if (accountId !== undefined) query = query.where("account_id", "=", accountId);
    if (before !== undefined) query = query.where("seq", "<", before);
    if (personId !== undefined) {
      query = query.where("seq", "in", (about) =>
        about
          .selectFrom("audit_person")
          .select("audit_person.seq")
          .where("audit_person.clinic_id", "=", clinicId)
          .where("audit_person.person_id", "=", personId),
      );
    }
    const rows = await query
      .orderBy("seq", "desc")
      .limit(limit + 1)
      .execute();
    const lines = rows.slice(0, limit).map(lineFromRow);
    return { lines, next: rows.length > limit ? lines.at(-1)!.seq : null };
  }

  /** The lines of a clinic in order, up to where its chain ends when asked; only a few are held at a time. */
  async *lines(clinicId: string): AsyncGenerator<AuditLine> {
    for await (const batch of this.batches(clinicId, (await this.head(clinicId)).seq)) yield* batch;
  }

  /**
   * Whether a clinic's chain holds from its first line to its head; the first line that does not is named.
   * @param head a head that was written down earlier: a chain that was made anew from end to end does not have it
   */
  async verify(
    clinicId: string,
    { head, signal }: { head?: AuditHead; signal?: AbortSignal } = {},
  ): Promise<Verification> {
    await this.open();
    const walk = new ChainWalk({ key: this.sealing?.key, writtenDown: head });
    try {
      const end = await this.head(clinicId);
      for await (const batch of this.batches(clinicId, end.seq)) {
        signal?.throwIfAborted();
        for (const line of batch) walk.step(line);
        await this.refuseOtherPeople(clinicId, batch);
      }
      walk.finish(end);
      await this.refuseLinesBeyondHead(clinicId);
      return { ok: true, lines: end.seq, head: end, unsealed: walk.unsealed };
    } catch (error) {
      if (!(error instanceof ChainBroken)) throw error;
      return { ok: false, seq: error.seq, fault: error.fault, sentence: error.message };
    }
  }

  private async *batches(clinicId: string, last: number): AsyncGenerator<AuditLine[]> {
    for (let after = 0; after < last; ) {
      const rows = await this.db
        .selectFrom("audit_line")
        .selectAll()
        .where("clinic_id", "=", clinicId)
        .where("seq", ">", after)
        .where("seq", "<=", last)
        .orderBy("seq")
        .limit(batchSize)
        .execute();
      if (rows.length > 0) yield rows.map(lineFromRow);
      if (rows.length < batchSize) return;
      after = Number(rows.at(-1)!.seq);
    }
  }

  /** Under each person stand the lines about them and no others: one that is missing there could not be found. */
  private async refuseOtherPeople(clinicId: string, lines: readonly AuditLine[]): Promise<void> {
    const listed = await this.db
      .selectFrom("audit_person")
      .select(["seq", "person_id"])
      .where("clinic_id", "=", clinicId)
      .where("seq", ">=", lines[0]!.seq)
      .where("seq", "<=", lines.at(-1)!.seq)
      .execute();
    const people = new Map<number, string[]>();
    for (const { seq, person_id } of listed) {
      people.set(Number(seq), [...(people.get(Number(seq)) ?? []), person_id]);
    }
    for (const line of lines) {
      const under = (people.get(line.seq) ?? []).sort().join();
      if (under !== peopleOf(line).sort().join()) throw new ChainBroken("misfiled", line.seq);
    }
  }

  /** One statement sees lines and head as they are together, whoever is writing meanwhile. */
  private async refuseLinesBeyondHead(clinicId: string): Promise<void> {
    const beyond = await this.db
      .selectFrom("audit_line as line")
      .leftJoin("audit_head as head", "head.clinic_id", "line.clinic_id")
      .select("line.seq")
      .where("line.clinic_id", "=", clinicId)
      .where(({ eb, ref }) => eb("line.seq", ">", eb.fn.coalesce(ref("head.seq"), eb.lit(0))))
      .orderBy("line.seq")
      .executeTakeFirst();
    if (beyond) throw new ChainBroken("beyondHead", Number(beyond.seq));
  }

  private async writeWaiting(): Promise<void> {
    this.isWriting = true;
    while (this.waiting.length > 0) {
      const together = this.waiting.splice(0, mostTogether);
      await this.writeTogether(together).then(
        () => {
          for (const { written } of together) written();
        },
        (error) => {
          for (const { failed } of together) failed(error);
        },
      );
    }
    this.isWriting = false;
  }

  /** Clinics in one order, so that two processes never wait for each other's. */
  private async writeTogether(together: readonly Waiting[]): Promise<void> {
    const byClinic = new Map<string, AuditEvent[]>();
    for (const { clinicId, events } of together) {
      byClinic.set(clinicId, [...(byClinic.get(clinicId) ?? []), ...events]);
    }
    const clinics = [...byClinic].sort(([a], [b]) => (a < b ? -1 : 1));
    await this.open();
    await transact(this.db, async (trx) => {
      for (const [clinicId, events] of clinics) await this.appendIn(trx, clinicId, events);
    });
  }
}

async function headIn(db: Kysely<RecordTables>, clinicId: string): Promise<AuditHead> {
  const row = await db
    .selectFrom("audit_head")
    .selectAll()
    .where("clinic_id", "=", clinicId)
    .executeTakeFirst();
  return row ? headFromRow(row) : emptyHead;
}
