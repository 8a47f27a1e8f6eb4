import type { Kysely } from "kysely";
import type { Entry, StoredEntry } from "../entry/index.ts";
import { appendIn, clinicsOf } from "./append.ts";
import { caseloadCountsIn, caseloadFactsIn, caseloadIn } from "./caseload/index.ts";
import { countsOf } from "./counts.ts";
import { erasedAmong } from "./erased.ts";
import { keepFit, staleFitsIn } from "./fits.ts";
import { peoplePage } from "./people.ts";
import { Partitions } from "./postgres/partitions.ts";
import { rebuildProjections } from "./rebuild.ts";
import { entryFromRow } from "./rows.ts";
import type { RecordTables } from "./schema.ts";
import type {
  AppendOptions,
  CaseloadLimits,
  CaseloadPlace,
  CaseloadSearch,
  FitRow,
  Progress,
  RecordStore,
} from "./store.ts";
import { transact } from "./transact.ts";

/** The record on an SQL engine. */
export class SqlStore implements RecordStore {
  private readonly db: Kysely<RecordTables>;
  private readonly partitions: Partitions;

  constructor(db: Kysely<RecordTables>) {
    this.db = db;
    this.partitions = new Partitions(db);
  }

  async append(
    entries: readonly Entry[],
    { alongside, ...options }: AppendOptions = {},
  ): Promise<StoredEntry[]> {
    for (const clinicId of clinicsOf(entries)) await this.partitions.ready(clinicId);
    return transact(
      this.db,
      async (trx) => {
        const kept = await appendIn(trx, entries, options);
        await alongside?.(trx);
        return kept;
      },
      { repeatable: true },
    );
  }

  erasedAmong(clinicId: string, personIds: readonly string[]): Promise<string[]> {
    return erasedAmong(this.db, clinicId, personIds);
  }

  async clinicIds(): Promise<string[]> {
    const rows = await this.db
      .selectFrom("clinic_row")
      .select("clinic_id")
      .where("entries", ">", 0)
      .orderBy("clinic_id")
      .execute();
    return rows.map((row) => row.clinic_id);
  }

  async clinicEntries(clinicId: string): Promise<StoredEntry[]> {
    const rows = await this.entriesIn(clinicId).where("person_id", "is", null).orderBy("cursor").execute();
    return rows.map(entryFromRow);
  }

  async entry(clinicId: string, id: string): Promise<StoredEntry | null> {
    const row = await this.entriesIn(clinicId).where("id", "=", id).executeTakeFirst();
    return row ? entryFromRow(row) : null;
  }

  async entriesOfPerson(clinicId: string, personId: string): Promise<StoredEntry[]> {
    const rows = await this.entriesIn(clinicId).where("person_id", "=", personId).orderBy("cursor").execute();
    return rows.map(entryFromRow);
  }

  async entriesAfter(clinicId: string, cursor: number, limit: number): Promise<StoredEntry[]> {
    const rows = await this.entriesIn(clinicId)
      .where("cursor", ">", cursor)
      .orderBy("cursor")
      .limit(limit)
      .execute();
    return rows.map(entryFromRow);
  }

  private entriesIn(clinicId: string) {
    return this.db.selectFrom("entry").selectAll().where("clinic_id", "=", clinicId);
  }

  people(clinicId: string, query: { text: string; after: string | null; limit: number }) {
    return peoplePage(this.db, clinicId, query);
  }

  counts(clinicId: string) {
    return countsOf(this.db, clinicId);
  }

  caseload(
    clinicId: string,
    search: CaseloadSearch,
    limits: CaseloadLimits,
    page: { after: CaseloadPlace | null; limit: number },
  ) {
    return caseloadIn(this.db, clinicId, search, limits, page);
  }

  caseloadFacts(clinicId: string, stomaIds: readonly string[], wearsSinceMs: number) {
    return caseloadFactsIn(this.db, clinicId, stomaIds, wearsSinceMs);
  }

  caseloadCounts(clinicId: string, limits: CaseloadLimits) {
    return caseloadCountsIn(this.db, clinicId, limits);
  }

  staleFits(clinicId: string, version: Pick<FitRow, "programVersion" | "protocolVersion">, limit: number) {
    return staleFitsIn(this.db, clinicId, version, limit);
  }

  saveFit(clinicId: string, fit: FitRow, readThrough: number): Promise<void> {
    return keepFit(this.db, clinicId, fit, readThrough);
  }

  async ownerOfStoma(clinicId: string, stomaId: string): Promise<string | null> {
    const row = await this.db
      .selectFrom("stoma_row")
      .select("person_id")
      .where("clinic_id", "=", clinicId)
      .where("stoma_id", "=", stomaId)
      .executeTakeFirst();
    return row?.person_id ?? null;
  }

  rebuild(options: { onProgress?: Progress; signal?: AbortSignal } = {}) {
    return transact(this.db, (trx) => rebuildProjections(trx, options), { repeatable: true });
  }

  async mark(name: string): Promise<string | null> {
    const row = await this.db.selectFrom("mark").select("value").where("name", "=", name).executeTakeFirst();
    return row?.value ?? null;
  }

  async setMark(name: string, value: string): Promise<void> {
    await this.db
      .insertInto("mark")
      .values({ name, value })
      .onConflict((conflict) => conflict.column("name").doUpdateSet({ value }))
      .execute();
  }

  async close(): Promise<void> {
    await this.db.destroy();
  }
}
