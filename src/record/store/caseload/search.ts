import { type Kysely, type RawBuilder, sql } from "kysely";
import { addDays, calendarDaysBetween, type PlainDate } from "../../../domain/calendar.ts";
import type { RecordTables } from "../schema.ts";
import type { CaseloadLimits, CaseloadPlace, CaseloadSearch } from "../store.ts";
import {
  active,
  type Ends,
  fitEnded,
  newDue,
  settledDue,
  shortEnds,
  tooLarge,
  tooSmall,
  unplannedEnds,
} from "./conditions.ts";

type Level = CaseloadPlace["level"];

interface Page {
  after: CaseloadPlace | null;
  limit: number;
}

const levelOf: Record<CaseloadSearch, Level> = {
  fitEnded: "sameDay",
  tooSmall: "sameDay",
  tooLarge: "sameDay",
  settledDue: "nextContact",
  newDue: "nextContact",
  unplanned: "nextContact",
  short: "nextContact",
};

/** Stomas that one search finds, in the order of the list, after a place. */
export async function caseloadIn(
  db: Kysely<RecordTables>,
  clinicId: string,
  search: CaseloadSearch,
  limits: CaseloadLimits,
  { after, limit }: Page,
): Promise<CaseloadPlace[]> {
  const level = levelOf[search];
  if (after?.level === "nextContact" && level === "sameDay") return [];
  const page = { after: after?.level === level ? after : null, limit };
  const searches: Record<CaseloadSearch, () => Promise<Found[]>> = {
    fitEnded: () => byDay(db, clinicId, "fits_until_on", limits.today, fitEnded(limits), page),
    tooSmall: () => byName(db, clinicId, tooSmall(), page),
    tooLarge: () => byName(db, clinicId, tooLarge(limits), page),
    settledDue: () =>
      byDay(db, clinicId, "measure_from", dueSince(limits, "settled"), settledDue(limits), page),
    newDue: () =>
      // Sorted by hand: in the order of the index by measuring, everybody would be read to find the few new ones.
      byDay(
        db,
        clinicId,
        "measure_from",
        dueSince(limits, "new"),
        newDue(limits),
        page,
        sql`measure_from || ''`,
      ),
    unplanned: () => byEnds(db, clinicId, unplannedEnds(limits), page),
    short: () => byEnds(db, clinicId, shortEnds(limits), page),
  };
  return (await searches[search]()).map((found) => ({ level, ...found }));
}

type Found = Omit<CaseloadPlace, "level">;

/** Measured on this day, a stoma is due today and has waited no day. */
function dueSince({ today, measureEveryDays }: CaseloadLimits, which: "new" | "settled"): PlainDate {
  return addDays(today, -measureEveryDays[which]);
}

/** Waiting since a day that the row holds, the earliest first. */
async function byDay(
  db: Kysely<RecordTables>,
  clinicId: string,
  column: "fits_until_on" | "measure_from",
  noWait: PlainDate,
  condition: RawBuilder<boolean>,
  { after, limit }: Page,
  by?: RawBuilder<string>,
): Promise<Found[]> {
  let query = db
    .selectFrom("stoma_row")
    .select(["stoma_id", "search_text", column])
    .where(active(clinicId))
    .where(condition);
  if (after) {
    const { searchText, stomaId, waitedDays } = after;
    const day = addDays(noWait, -waitedDays);
    query = query.where(
      sql<boolean>`(${sql.ref(column)}, search_text, stoma_id) > (${day}, ${searchText}, ${stomaId})`,
    );
  }
  const rows = await query
    .orderBy(by ?? sql.ref(column))
    .orderBy("search_text")
    .orderBy("stoma_id")
    .limit(limit)
    .execute();
  return rows.map((row) => ({
    stomaId: row.stoma_id,
    searchText: row.search_text,
    waitedDays: calendarDaysBetween(row[column]!, noWait),
  }));
}

/** What waits for no day in particular, by name. */
async function byName(
  db: Kysely<RecordTables>,
  clinicId: string,
  condition: RawBuilder<boolean>,
  { after, limit }: Page,
): Promise<Found[]> {
  let query = db
    .selectFrom("stoma_row")
    .select(["stoma_id", "search_text"])
    .where(active(clinicId))
    .where(condition);
  if (after) {
    if (after.waitedDays < 0) return [];
    if (after.waitedDays === 0) {
      query = query.where(sql<boolean>`(search_text, stoma_id) > (${after.searchText}, ${after.stomaId})`);
    }
  }
  const rows = await query.orderBy("search_text").orderBy("stoma_id").limit(limit).execute();
  return rows.map((row) => ({ stomaId: row.stoma_id, searchText: row.search_text, waitedDays: 0 }));
}

/** As many ends as only few stomas have lately. */
const many = 16;

/** Ends of one kind, those with most of them first: each above the count is a day of waiting. */
async function byEnds(
  db: Kysely<RecordTables>,
  clinicId: string,
  ends: Ends,
  { after, limit }: Page,
): Promise<Found[]> {
  // Those with many are few and come first: only when they do not fill the page are those with fewer looked at.
  let atLeast = after ? Math.min(many, after.waitedDays + ends.count) : many;
  while (true) {
    atLeast = Math.max(Math.ceil(ends.count), Math.floor(atLeast));
    const rows = await withAtLeast(db, clinicId, { ...ends, count: atLeast }, after, limit, ends);
    if (rows.length === limit || atLeast <= ends.count) return rows;
    atLeast /= 2;
  }
}

async function withAtLeast(
  db: Kysely<RecordTables>,
  clinicId: string,
  some: Ends,
  after: CaseloadPlace | null,
  limit: number,
  { count }: Ends,
): Promise<Found[]> {
  const rest = after
    ? sql`and (found.ends < ${after.waitedDays + count} or (found.ends = ${after.waitedDays + count}
        and (stoma_row.search_text, stoma_row.stoma_id) > (${after.searchText}, ${after.stomaId})))`
    : sql``;
  const { rows } = await sql<{ stoma_id: string; search_text: string; ends: number }>`
    with found as materialized (
      select nth.stoma_id, ${countOf(some)} as ends from wear_row as nth where ${nthIsRecent(clinicId, some)}
    )
    select stoma_row.stoma_id, stoma_row.search_text, found.ends
    from found join stoma_row on stoma_row.clinic_id = ${clinicId} and stoma_row.stoma_id = found.stoma_id
    where found.ends >= ${some.count} ${rest}
    order by found.ends desc, stoma_row.search_text, stoma_row.stoma_id limit ${limit}`.execute(db);
  return rows.map((row) => ({
    stomaId: row.stoma_id,
    searchText: row.search_text,
    waitedDays: Number(row.ends) - count,
  }));
}

/**
 * There were so many unplanned ends lately in `nth`: one range of an index, which has them of active stomas alone.
 */
export function nthIsRecent(clinicId: string, { count, sinceMs }: Ends): RawBuilder<boolean> {
  return sql`nth.clinic_id = ${clinicId} and nth.unplanned_place = ${Math.ceil(count)}
    and nth.ended_ms >= ${sinceMs}`;
}

/** How many of the stoma's late unplanned ends count. */
export function countOf({ sinceMs, counts }: Ends): RawBuilder<number> {
  return sql`(select count(*) from wear_row as wear where wear.clinic_id = nth.clinic_id
    and wear.stoma_id = nth.stoma_id and wear.unplanned_place is not null
    and wear.ended_ms >= ${sinceMs} and ${counts})`;
}
