import { existsSync } from "node:fs";
import { rm } from "node:fs/promises";
import Database from "better-sqlite3";
import type { PlainDate } from "../../domain/calendar.ts";
import { todayIn } from "../entry/index.ts";
import { type OpenRecord, openRecord } from "../open/index.ts";
import { refreshFits } from "../projection/index.ts";
import { openSqlite, type Progress, type RecordStore, recordFile } from "../store/index.ts";
import { clinicStory } from "../story/index.ts";
import { demoClinicId, demoNurse } from "./clinic.ts";
import { demoEntries } from "./entries.ts";

/** A folder that may not be made into the demo, or not be deleted; the message says why and what to do. */
export class DemoRefused extends Error {}

interface DemoOptions {
  nowMs: number;
  /** Where the invented clinic is; this machine's zone unless given. */
  zone?: string;
  seed?: number;
  onProgress?: Progress;
}

export interface OpenedDemo {
  store: RecordStore;
  madeOn: PlainDate;
  isNew: boolean;
}

/**
 * Opens the demo of a folder; makes it where the folder holds no record or an empty one.
 * @throws {DemoRefused} where the folder holds a real clinic
 */
export async function openOrMakeDemo(dataDir: string, options: DemoOptions): Promise<OpenedDemo> {
  const { nowMs, zone = Intl.DateTimeFormat().resolvedOptions().timeZone, seed, onProgress } = options;
  const record = await openRecord({ dataDir });
  const { store } = record;
  try {
    const marked = await store.mark("demo");
    const isEmpty = (await store.clinicIds()).length === 0;
    if (marked !== null && !isEmpty) {
      await keepDemoAccount(record, nowMs);
      return { store, madeOn: marked, isNew: false };
    }
    if (!isEmpty)
      throw new DemoRefused(`The folder ${dataDir} holds a real clinic; the demo needs a folder of its own.`);
    const madeOn = todayIn(zone, nowMs);
    // The mark comes first: entries of the demo never lie in a folder that does not say so.
    await store.setMark("demo", madeOn);
    await store.append(demoEntries({ seed, today: madeOn, zone }), { onProgress });
    await keepDemoAccount(record, nowMs);
    const clinic = clinicStory(await store.clinicEntries(demoClinicId));
    if (clinic) await refreshFits(store, clinic);
    return { store, madeOn, isNew: true };
  } catch (error) {
    await record.close();
    throw error;
  }
}

/** The invented nurse leads the invented clinic. She has neither password nor passkey: only the demo lets itself in. */
async function keepDemoAccount({ accounts }: OpenRecord, nowMs: number): Promise<void> {
  if (await accounts.demoAccount()) return;
  await accounts.create(
    {
      accountId: demoNurse.id,
      clinicId: demoClinicId,
      signInName: "demo",
      displayName: demoNurse.name,
      role: "lead",
      passwordHash: null,
      demo: true,
    },
    nowMs,
  );
}

/**
 * Deletes the demo of a folder with everything that was tried in it; leaves a folder without a record alone.
 * @throws {DemoRefused} where the folder holds anything else, or a bench has it open
 */
export async function removeDemo(dataDir: string): Promise<void> {
  const file = recordFile(dataDir);
  if (!existsSync(file)) return;
  const store = await openSqlite(file);
  const marked = await store.mark("demo");
  await store.close();
  if (marked === null)
    throw new DemoRefused(`The folder ${dataDir} does not hold the demo; nothing was deleted.`);
  if (isInUse(file)) {
    throw new DemoRefused(
      `The demo in ${dataDir} is open in another process; stop it first. Nothing was deleted.`,
    );
  }
  for (const suffix of ["", "-wal", "-shm"]) await rm(`${file}${suffix}`, { force: true });
}

/** Leaving the WAL needs the file for oneself. */
function isInUse(file: string): boolean {
  const database = new Database(file, { timeout: 0 });
  try {
    return database.pragma("journal_mode = DELETE", { simple: true }) !== "delete";
  } catch {
    return true;
  } finally {
    database.close();
  }
}
