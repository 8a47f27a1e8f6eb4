import { type Kysely, type RawBuilder, sql } from "kysely";
import type { RecordTables } from "../schema.ts";
import type { CaseloadLimits, CaseloadPlace } from "../store.ts";
import {
  active,
  fitEnded,
  measureDue,
  newDue,
  sameDay,
  settledDue,
  shortEnds,
  tooLarge,
  tooSmall,
  unplannedEnds,
} from "./conditions.ts";
import { countOf, nthIsRecent } from "./search.ts";

type Level = CaseloadPlace["level"];

/** Stomas found by one reason and by none before it: those of people with one stoma, and the people with several. */
interface Part {
  level: Level;
  only: number;
  others: string[];
}

/** How many people the searches find, each counted once, at the most urgent level. */
export async function caseloadCountsIn(
  db: Kysely<RecordTables>,
  clinicId: string,
  limits: CaseloadLimits,
): Promise<Record<Level, number>> {
  const urgent = sameDay(limits);
  const parts = [
    ...(await partsOf(db, clinicId, "sameDay", [
      fitEnded(limits),
      sql`${tooSmall()} and not ${fitEnded(limits)}`,
      sql`${tooLarge(limits)} and not ${fitEnded(limits)} and not ${tooSmall()}`,
    ])),
    ...(await partsOf(db, clinicId, "nextContact", [
      sql`${settledDue(limits)} and not ${urgent}`,
      sql`${newDue(limits)} and not ${urgent}`,
    ])),
    await troubled(db, clinicId, limits),
  ];
  const counted: Record<Level, number> = { sameDay: 0, nextContact: 0 };
  const seen = new Set<string>();
  for (const { level, only, others } of parts) {
    counted[level] += only;
    for (const personId of others) {
      if (!seen.has(personId)) counted[level] += 1;
      seen.add(personId);
    }
  }
  return counted;
}

const people = sql`count(*) filter (where is_only = 1) as alone,
  string_agg(person_id, ' ') filter (where is_only = 0) as others`;

interface PeopleRow {
  alone: number;
  others: string | null;
}

async function partsOf(
  db: Kysely<RecordTables>,
  clinicId: string,
  level: Level,
  conditions: RawBuilder<boolean>[],
): Promise<Part[]> {
  const parts: Part[] = [];
  for (const condition of conditions) {
    const { rows } = await sql<PeopleRow>`select ${people} from stoma_row
      where ${active(clinicId)} and ${condition}`.execute(db);
    parts.push(partOf(level, rows[0]!));
  }
  return parts;
}

/** Stomas whose wears alone are a reason: nothing else asks for them. */
async function troubled(db: Kysely<RecordTables>, clinicId: string, limits: CaseloadLimits): Promise<Part> {
  const short = shortEnds(limits);
  const { rows } = await sql<PeopleRow>`select ${people} from (
      select nth.stoma_id from wear_row as nth where ${nthIsRecent(clinicId, unplannedEnds(limits))}
      union
      select nth.stoma_id from wear_row as nth
      where ${nthIsRecent(clinicId, short)} and ${countOf(short)} >= ${short.count}
    ) as troubled
    join stoma_row on stoma_row.clinic_id = ${clinicId} and stoma_row.stoma_id = troubled.stoma_id
    where not ${sameDay(limits)} and not ${measureDue(limits)}`.execute(db);
  return partOf("nextContact", rows[0]!);
}

function partOf(level: Level, { alone, others }: PeopleRow): Part {
  return { level, only: Number(alone), others: others?.split(" ") ?? [] };
}
