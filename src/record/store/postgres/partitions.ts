import { type Kysely, sql } from "kysely";
import { engineOf } from "../engine.ts";
import { lockClinic } from "../lock.ts";
import type { RecordTables } from "../schema.ts";
import { transact } from "../transact.ts";

/**
 * Makes the partition that a clinic's entries lie in, before the first of them is written; see
 * docs/decisions/partition-by-clinic.md. SQLite has none.
 */
export class Partitions {
  private readonly db: Kysely<RecordTables>;
  /** Those known to be there; another process may have made them. */
  private readonly made = new Set<string>();

  constructor(db: Kysely<RecordTables>) {
    this.db = db;
  }

  async ready(clinicId: string): Promise<void> {
    if (this.made.has(clinicId) || engineOf(this.db) === "sqlite") return;
    await transact(
      this.db,
      async (trx) => {
        await lockClinic(trx, clinicId);
        if (!(await isAttached(trx, clinicId))) await attach(trx, clinicId);
      },
      { repeatable: true },
    );
    this.made.add(clinicId);
  }
}

function nameOf(clinicId: string): string {
  return `entry_${clinicId.replaceAll("-", "_")}`;
}

async function isAttached(trx: Kysely<RecordTables>, clinicId: string): Promise<boolean> {
  const { rows } = await sql`select 1 from pg_inherits
    where inhparent = 'entry'::regclass and inhrelid = to_regclass(${nameOf(clinicId)})`.execute(trx);
  return rows.length > 0;
}

/** Attaching an empty table lets others read and write meanwhile; making it as a partition at once would not. */
async function attach(trx: Kysely<RecordTables>, clinicId: string): Promise<void> {
  const partition = sql.table(nameOf(clinicId));
  await sql`create table ${partition} (like entry including all)`.execute(trx);
  await sql`alter table entry attach partition ${partition} for values in (${sql.lit(clinicId)})`.execute(
    trx,
  );
}
