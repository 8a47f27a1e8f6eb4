import { setImmediate as nextTurn } from "node:timers/promises";
import { programVersion } from "../programVersion.ts";
import type { Progress, RecordStore } from "../store/index.ts";
import { type ClinicStory, personStory } from "../story/index.ts";
import { fitOf } from "./fit.ts";

export interface RefreshOptions {
  /** Stomas to refresh at most; all that are stale unless given. */
  limit?: number;
  onProgress?: Progress;
  signal?: AbortSignal;
}

const stomasALook = 50;

/**
 * Makes the fits anew that are older than their readings, or were made under another protocol or program. Others
 * get their turn between two fits; an aborted signal stops between two fits as well, without an error.
 * @returns how many were made, and whether stale ones are left
 */
export async function refreshFits(
  store: RecordStore,
  clinic: ClinicStory,
  { limit = Number.POSITIVE_INFINITY, onProgress, signal }: RefreshOptions = {},
): Promise<{ refreshed: number; left: boolean }> {
  const version = { programVersion, protocolVersion: clinic.protocolVersion };
  const look = (atMost: number) => store.staleFits(clinic.clinicId, version, atMost);
  let refreshed = 0;
  while (true) {
    const stale = await look(Math.max(1, Math.min(stomasALook, limit - refreshed)));
    if (stale.length === 0) return { refreshed, left: false };
    const known = refreshed + stale.length;
    for (const { personId, stomaId } of stale) {
      if (refreshed >= limit || signal?.aborted) return { refreshed, left: true };
      await refreshOne(store, clinic, personId, stomaId);
      refreshed += 1;
      onProgress?.(refreshed, known);
      await nextTurn();
    }
  }
}

async function refreshOne(
  store: RecordStore,
  clinic: ClinicStory,
  personId: string,
  stomaId: string,
): Promise<void> {
  const entries = await store.entriesOfPerson(clinic.clinicId, personId);
  const stoma = personStory(entries)?.stomas.find((one) => one.stomaId === stomaId);
  if (!stoma) throw new Error(`stoma ${stomaId} is on the lists but not in the record`);
  await store.saveFit(clinic.clinicId, fitOf(stoma, clinic), entries.at(-1)!.cursor);
}
