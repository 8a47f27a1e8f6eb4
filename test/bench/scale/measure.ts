import { randomUUID } from "node:crypto";
import { statSync } from "node:fs";
import { loadavg } from "node:os";
import Database from "better-sqlite3";
import { type OpenRecord, openRecord } from "../../../src/record/open/index.ts";
import { recordFile } from "../../../src/record/store/index.ts";
import { clinicStory } from "../../../src/record/story/index.ts";
import { todayList } from "../../../src/record/today/index.ts";
import { change, clinicId, entry, instant } from "../../record/samples.ts";

/** Milliseconds of many tries. */
export interface Timing {
  p50: number;
  p95: number;
}

export interface Measured {
  people: number;
  entries: number;
  gigabytes: number;
  /** Processes that wanted a core in the minute before the end; more than there are cores, and all waits are longer. */
  loadAverage: number;
  /** People on the list of today. */
  named: number;
  todayMs: Timing;
  addMs: Timing;
  personMs: Timing;
  /** The same with better-sqlite3 alone: the bare rows, as its peer. */
  bare: { todayMs: Timing; addMs: Timing; personMs: Timing };
}

const linesShown = 50;
const tries = { today: 60, add: 400, person: 400 };

/** Measures a record of a data folder as the server works with it, in this process and without HTTP. */
export async function measure(dataDir: string, nowMs: number): Promise<Measured> {
  const record = await openRecord({ dataDir });
  const { people, entries } = await record.store.counts(clinicId);
  const ids = someStomas(dataDir, tries.add);
  const ours = await measureOurs(record, ids, nowMs);
  await record.close();
  const gigabytes = statSync(recordFile(dataDir)).size / 1e9;
  const bare = measureBare(dataDir, ids, nowMs);
  return { people, entries, gigabytes, loadAverage: loadavg()[0]!, ...ours, bare };
}

interface Ids {
  person_id: string;
  stoma_id: string;
}

/** Spread over the whole record, so that none is read twice. */
function someStomas(dataDir: string, count: number): Ids[] {
  const db = new Database(recordFile(dataDir), { readonly: true });
  const rows = db
    .prepare("select person_id, stoma_id from stoma_row where standing = 'active' order by stoma_id")
    .all() as Ids[];
  db.close();
  return Array.from({ length: count }, (_, index) => rows[Math.floor((index * rows.length) / count)]!);
}

async function measureOurs({ store }: OpenRecord, ids: Ids[], nowMs: number) {
  const story = clinicStory(await store.clinicEntries(clinicId))!;
  const personMs = await timed(tries.person, async (index) => {
    JSON.stringify(await store.entriesOfPerson(clinicId, ids[index]!.person_id));
  });
  const addMs = await timed(tries.add, async (index) => {
    const { person_id: personId, stoma_id: stomaId } = ids[index]!;
    const at = instant(new Date(nowMs).toISOString());
    await store.append([entry("changed", change(), { personId, stomaId, at })]);
  });
  let named = 0;
  const todayMs = await timed(tries.today, async () => {
    const { people } = await todayList(store, story, nowMs, { limit: linesShown });
    named = people.sameDay + people.nextContact;
  });
  return { named, todayMs, addMs, personMs };
}

/** What the engine itself takes for the rows alone: no projection, no verdict, no count. */
function measureBare(dataDir: string, ids: Ids[], nowMs: number): Measured["bare"] {
  const db = new Database(recordFile(dataDir));
  db.pragma("synchronous = FULL");
  const person = db.prepare("select * from entry where clinic_id = ? and person_id = ? order by cursor");
  const personMs = timedNow(tries.person, (index) =>
    JSON.stringify(person.all(clinicId, ids[index]!.person_id)),
  );
  const due = db.prepare(
    `select * from stoma_row join person_row using (clinic_id, person_id)
      where clinic_id = ? and stoma_row.standing = 'active' order by measure_from limit ${linesShown}`,
  );
  const todayMs = timedNow(tries.today, () => JSON.stringify(due.all(clinicId)));
  db.exec("create table bare (id text primary key, at_ms integer not null, body text not null)");
  const add = db.prepare("insert into bare (id, at_ms, body) values (?, ?, ?)");
  const body = JSON.stringify(entry("changed", change()));
  const addMs = timedNow(tries.add, () => add.run(randomUUID(), nowMs, body));
  db.exec("drop table bare");
  db.close();
  return { todayMs, addMs, personMs };
}

async function timed(count: number, work: (index: number) => Promise<void>): Promise<Timing> {
  const times: number[] = [];
  for (let index = 0; index < count; index += 1) {
    const before = performance.now();
    await work(index);
    times.push(performance.now() - before);
  }
  return timingOf(times);
}

function timedNow(count: number, work: (index: number) => unknown): Timing {
  const times: number[] = [];
  for (let index = 0; index < count; index += 1) {
    const before = performance.now();
    work(index);
    times.push(performance.now() - before);
  }
  return timingOf(times);
}

export function timingOf(times: number[]): Timing {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
  return { p50: at(0.5), p95: at(0.95) };
}
