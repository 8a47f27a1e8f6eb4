import { type Kysely, sql, type Transaction } from "kysely";
import type { Entry, StoredEntry } from "../entry/index.ts";
import { folded } from "../projection/rows.ts";
import { caseloadRows } from "./caseload.ts";
import { projectPeople, rebuildProjections } from "./project.ts";
import { entryFromRow, entryToRow, personFromRow, stomaFromRow } from "./rows.ts";
import type { RecordTables } from "./schema.ts";
import {
  type CaseloadLimits,
  type CaseloadRow,
  ConflictError,
  type FitRow,
  type PeoplePage,
  type Progress,
  type RecordStore,
} from "./store.ts";

/** Rows in one statement: well under every engine's limit of bound values. */
const batchSize = 500;

/** The record on an SQL engine; what differs by engine stays in the file that opens it. */
export class SqlStore implements RecordStore {
  private readonly db: Kysely<RecordTables>;

  constructor(db: Kysely<RecordTables>) {
    this.db = db;
  }

  async append(
    entries: readonly Entry[],
    { onProgress }: { onProgress?: Progress } = {},
  ): Promise<StoredEntry[]> {
    return this.db.transaction().execute(async (trx) => {
      const known = new Map<string, StoredEntry>();
      const fresh: Entry[] = [];
      for (const batch of batches(entries)) {
        for (const entry of await entriesById(
          trx,
          batch.map(({ id }) => id),
        ))
          known.set(entry.id, entry);
      }
      for (const entry of entries) {
        const existing = known.get(entry.id);
        if (existing && !sameContent(existing, entry)) throw new ConflictError("idReused", existing);
        if (existing) continue;
        fresh.push(entry);
        known.set(entry.id, { ...entry, cursor: 0 });
      }
      await refuseSecondCorrections(trx, fresh);
      let written = 0;
      for (const batch of batches(fresh)) {
        const rows = await trx.insertInto("entry").values(batch.map(entryToRow)).returningAll().execute();
        for (const row of rows) known.set(row.id, entryFromRow(row));
        written += batch.length;
        onProgress?.(written, fresh.length);
      }
      await projectPeople(trx, fresh);
      return entries.map(({ id }) => known.get(id)!);
    });
  }

  async clinicIds(): Promise<string[]> {
    const rows = await this.db.selectFrom("entry").select("clinic_id").distinct().execute();
    return rows.map((row) => row.clinic_id);
  }

  async clinicEntries(clinicId: string): Promise<StoredEntry[]> {
    const rows = await this.db
      .selectFrom("entry")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("person_id", "is", null)
      .orderBy("cursor")
      .execute();
    return rows.map(entryFromRow);
  }

  async entry(clinicId: string, id: string): Promise<StoredEntry | null> {
    const row = await this.db
      .selectFrom("entry")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("id", "=", id)
      .executeTakeFirst();
    return row ? entryFromRow(row) : null;
  }

  async entriesOfPerson(clinicId: string, personId: string): Promise<StoredEntry[]> {
    const rows = await this.db
      .selectFrom("entry")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("person_id", "=", personId)
      .orderBy("cursor")
      .execute();
    return rows.map(entryFromRow);
  }

  async entriesAfter(clinicId: string, cursor: number, limit: number): Promise<StoredEntry[]> {
    const rows = await this.db
      .selectFrom("entry")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("cursor", ">", cursor)
      .orderBy("cursor")
      .limit(limit)
      .execute();
    return rows.map(entryFromRow);
  }

  async people(
    clinicId: string,
    { text, after, limit }: { text: string; after: string | null; limit: number },
  ): Promise<PeoplePage> {
    let query = this.db.selectFrom("person_row").selectAll().where("clinic_id", "=", clinicId);
    for (const word of folded(text).split(/\s+/).filter(Boolean)) {
      query = query.where("search_text", "like", `%${word.replace(/[%_]/g, "")}%`);
    }
    if (after !== null) {
      const [name = "", id = ""] = JSON.parse(after) as string[];
      query = query.where((where) =>
        where.or([
          where("search_text", ">", name),
          where.and([where("search_text", "=", name), where("person_id", ">", id)]),
        ]),
      );
    }
    const rows = await query
      .orderBy("search_text")
      .orderBy("person_id")
      .limit(limit + 1)
      .execute();
    const page = rows.slice(0, limit);
    const last = page.at(-1);
    const stomas = await this.stomasOf(
      clinicId,
      page.map((row) => row.person_id),
    );
    return {
      people: page.map((row) => ({
        ...personFromRow(row),
        stomas: stomas.filter(({ personId }) => personId === row.person_id),
      })),
      next: rows.length > limit && last ? JSON.stringify([last.search_text, last.person_id]) : null,
    };
  }

  private async stomasOf(clinicId: string, personIds: string[]) {
    if (personIds.length === 0) return [];
    const rows = await this.db
      .selectFrom("stoma_row")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("person_id", "in", personIds)
      .execute();
    return rows.map(stomaFromRow);
  }

  async counts(clinicId: string): Promise<{ people: number; active: number; entries: number }> {
    const people = await this.db
      .selectFrom("person_row")
      .select(({ fn }) => [fn.countAll<number>().as("people"), "standing"])
      .where("clinic_id", "=", clinicId)
      .groupBy("standing")
      .execute();
    const entries = await this.db
      .selectFrom("entry")
      .select(({ fn }) => fn.countAll<number>().as("entries"))
      .where("clinic_id", "=", clinicId)
      .executeTakeFirstOrThrow();
    const total = people.reduce((sum, row) => sum + Number(row.people), 0);
    const active = people.find((row) => row.standing === "active")?.people ?? 0;
    return { people: total, active: Number(active), entries: Number(entries.entries) };
  }

  async caseload(clinicId: string, limits: CaseloadLimits): Promise<CaseloadRow[]> {
    return caseloadRows(this.db, clinicId, limits);
  }

  async staleFits(
    clinicId: string,
    { programVersion, protocolVersion }: Pick<FitRow, "programVersion" | "protocolVersion">,
    limit: number,
  ): Promise<{ personId: string; stomaId: string }[]> {
    const fits = () =>
      this.db.selectFrom("fit_row").select(["person_id", "stoma_id"]).where("clinic_id", "=", clinicId);
    // Each is a range scan of its own index: "unequal" would read every fit of the clinic at each look.
    const scans = [
      fits().where("stale", "=", 1),
      fits().where("program_version", "<", programVersion),
      fits().where("program_version", ">", programVersion),
      fits().where("protocol_version", "<", protocolVersion),
      fits().where("protocol_version", ">", protocolVersion),
    ];
    const found = new Map<string, { personId: string; stomaId: string }>();
    for (const scan of scans) {
      if (found.size >= limit) break;
      for (const row of await scan.limit(limit).execute()) {
        found.set(row.stoma_id, { personId: row.person_id, stomaId: row.stoma_id });
      }
    }
    return [...found.values()].slice(0, limit);
  }

  async saveFit(clinicId: string, fit: FitRow, readThrough: number): Promise<void> {
    await this.db
      .updateTable("fit_row")
      .set({
        stale: sql<number>`exists (select 1 from entry where entry.clinic_id = fit_row.clinic_id
          and entry.person_id = fit_row.person_id and entry.cursor > ${readThrough})`,
        fits_until_on: fit.fitsUntilOn,
        fits_until_lower_on: fit.fitsUntilLowerOn,
        fits_until_upper_on: fit.fitsUntilUpperOn,
        program_version: fit.programVersion,
        protocol_version: fit.protocolVersion,
      })
      .where("clinic_id", "=", clinicId)
      .where("stoma_id", "=", fit.stomaId)
      .execute();
  }

  async ownerOfStoma(clinicId: string, stomaId: string): Promise<string | null> {
    const row = await this.db
      .selectFrom("stoma_row")
      .select("person_id")
      .where("stoma_id", "=", stomaId)
      .where("clinic_id", "=", clinicId)
      .executeTakeFirst();
    return row?.person_id ?? null;
  }

  async rebuild(options: { onProgress?: Progress; signal?: AbortSignal } = {}) {
    return this.db.transaction().execute((trx) => rebuildProjections(trx, options));
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

async function entriesById(trx: Transaction<RecordTables>, ids: string[]): Promise<StoredEntry[]> {
  if (ids.length === 0) return [];
  const rows = await trx.selectFrom("entry").selectAll().where("id", "in", ids).execute();
  return rows.map(entryFromRow);
}

/** A second correction of one entry would silently win over the first: its writer must see the first. */
async function refuseSecondCorrections(
  trx: Transaction<RecordTables>,
  fresh: readonly Entry[],
): Promise<void> {
  const targets = fresh.flatMap((entry) => (entry.corrects ? [entry.corrects.id] : []));
  for (const batch of batches(targets)) {
    const row = await trx
      .selectFrom("entry")
      .selectAll()
      .where("corrects_id", "in", batch)
      .executeTakeFirst();
    if (row) throw new ConflictError("alreadyCorrected", entryFromRow(row));
  }
  const seen = new Map<string, Entry>();
  for (const entry of fresh) {
    if (!entry.corrects) continue;
    const earlier = seen.get(entry.corrects.id);
    if (earlier) throw new ConflictError("alreadyCorrected", { ...earlier, cursor: 0 });
    seen.set(entry.corrects.id, entry);
  }
}

/** Equal in what the writer wrote; the server's own stamps may differ when a request is sent twice. */
function sameContent(a: Entry, b: Entry): boolean {
  return contentOf(a) === contentOf(b);
}

function contentOf(entry: Entry): string {
  const { clinicId, personId, stomaId, kind, at, reportedBy, corrects, reason, body } = entry;
  return JSON.stringify(
    sorted({ clinicId, personId, stomaId, kind, at, reportedBy, corrects, reason, body }),
  );
}

/** The same value with object keys in order, so that equal content has equal JSON. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (value === null || typeof value !== "object") return value;
  const pairs = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
  return Object.fromEntries(pairs.map(([key, inner]) => [key, sorted(inner)]));
}

function* batches<T>(items: readonly T[]): Generator<T[]> {
  for (let from = 0; from < items.length; from += batchSize) yield items.slice(from, from + batchSize);
}
