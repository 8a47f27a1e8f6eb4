import type { Kysely } from "kysely";
import { addToCounts, type Counts } from "./counts.ts";
import { lockClinic } from "./lock.ts";
import { projectPersonIn } from "./project.ts";
import type { RecordTables } from "./schema.ts";
import type { Progress } from "./store.ts";

/** Tables that are made from the entries alone, and made anew by a rebuild. */
export const projectionTables = ["person_row", "stoma_row", "wear_row", "clinic_row"] as const;

interface RebuildOptions {
  onProgress?: Progress;
  signal?: AbortSignal;
}

/** Empties every projection and makes it anew from the entries, inside the caller's transaction. */
export async function rebuildProjections(
  trx: Kysely<RecordTables>,
  { onProgress, signal }: RebuildOptions,
): Promise<{ people: number; entries: number }> {
  const clinics: { clinicId: string; personIds: string[] }[] = [];
  for (const clinicId of await everyClinic(trx)) {
    await lockClinic(trx, clinicId);
    clinics.push({ clinicId, personIds: await peopleWithEntries(trx, clinicId) });
  }
  const people = clinics.reduce((sum, { personIds }) => sum + personIds.length, 0);
  let entries = 0;
  let done = 0;
  for (const { clinicId, personIds } of clinics) {
    for (const table of projectionTables)
      await trx.deleteFrom(table).where("clinic_id", "=", clinicId).execute();
    const counts: Counts = { people: 0, active: 0, entries: await entriesOf(trx, clinicId) };
    for (const personId of personIds) {
      signal?.throwIfAborted();
      const more = await projectPersonIn(trx, clinicId, personId);
      counts.people += more.people;
      counts.active += more.active;
      done += 1;
      onProgress?.(done, people);
    }
    if (counts.entries > 0) await addToCounts(trx, clinicId, counts);
    entries += counts.entries;
  }
  return { people, entries };
}

/** In order, so that two that lock them all never wait for each other. */
async function everyClinic(trx: Kysely<RecordTables>): Promise<string[]> {
  const rows = await trx
    .selectFrom("entry")
    .select("clinic_id")
    .union((also) => also.selectFrom("clinic_row").select("clinic_id"))
    .orderBy("clinic_id")
    .execute();
  return rows.map((row) => row.clinic_id);
}

async function peopleWithEntries(trx: Kysely<RecordTables>, clinicId: string): Promise<string[]> {
  const rows = await trx
    .selectFrom("entry")
    .select("person_id")
    .distinct()
    .where("clinic_id", "=", clinicId)
    .where("person_id", "is not", null)
    .execute();
  return rows.map((row) => row.person_id!);
}

async function entriesOf(trx: Kysely<RecordTables>, clinicId: string): Promise<number> {
  const { entries } = await trx
    .selectFrom("entry")
    .select(({ fn }) => fn.countAll<number>().as("entries"))
    .where("clinic_id", "=", clinicId)
    .executeTakeFirstOrThrow();
  return Number(entries);
}
