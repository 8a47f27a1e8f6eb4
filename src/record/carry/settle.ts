import type { Kysely } from "kysely";
import type { Tombstone } from "../erasure/index.ts";
import { isUnfinished, type KeyOptions, keepInForce, openKeys, recoverKeys } from "../keys/index.ts";
import { recordOver } from "../open/index.ts";
import { resealPhotos } from "../photo/index.ts";
import type { RecordTables } from "../store/schema.ts";
import { note } from "./noted.ts";

export interface Settled {
  /** People who were in the backup and have been erased since: erased again. */
  erasedAgain: number;
  /** Photographs that no key at hand opens. */
  photosLost: number;
  /** The key file in use; made anew where it was lost. */
  keyFile: string;
}

interface Settling extends KeyOptions {
  recoveryKey?: string;
  nowMs: number;
  /** Of the record that was there before; those of the ledger come to them. */
  tombstones: readonly Tombstone[];
}

/** Brings a restored record to the keys at hand, and erases again whoever was erased since the backup. */
export async function settle(
  db: Kysely<RecordTables>,
  { recoveryKey, tombstones, nowMs, keyFile, dataDir }: Settling,
): Promise<Settled> {
  const places = { keyFile, dataDir, nowMs };
  const keys =
    recoveryKey === undefined ? await openKeys(db, places) : await recoverKeys(db, recoveryKey, places);
  const { failed } = await resealPhotos(db, keys);
  if (await isUnfinished(db, keys)) await keepInForce(db, keys);
  const record = recordOver(db, { ...places, keyFile: keys.file });
  const erasedAgain =
    (await record.erasure.replay(tombstones, nowMs)) + (await record.erasure.reconcile(nowMs));
  await note(record, "restore", nowMs);
  return { erasedAgain, photosLost: failed, keyFile: keys.file };
}
