import { Buffer } from "node:buffer";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Kysely } from "kysely";
import {
  KeyFault,
  type Keys,
  noteProof,
  readMark,
  refuseOtherRecoveryKey,
  unsealWith,
} from "../keys/index.ts";
import type { OpenRecord } from "../open/index.ts";
import type { RecordTables } from "../store/schema.ts";
import { digestsOf, dumpLines } from "./dump.ts";
import { refuseUnequal } from "./equal.ts";
import { loadDump } from "./load.ts";
import { newDatabase } from "./newDatabase.ts";
import { readSealed, writeSealed } from "./sealedFile.ts";
import { withSnapshot } from "./snapshot.ts";

/** Rows of each table that go into the trial. */
const trialRows = 100;

export interface Proof {
  /** Rows that came out of the trial as they had gone in. */
  rows: number;
  photos: number;
}

/**
 * Makes a small backup, restores it in a folder of its own with the recovery key alone, and opens its photographs
 * with it; then notes the day.
 * @throws {KeyFault} when it is not this record's recovery key, or something does not open with it
 */
export async function proveRecoveryKey(
  { db, keys: openKeys }: Pick<OpenRecord, "db" | "keys">,
  recoveryKey: string,
  nowMs = Date.now(),
): Promise<Proof> {
  const keys = await openKeys();
  await refuseOtherRecoveryKey(keys, recoveryKey);
  const folder = await mkdtemp(join(tmpdir(), "roundel-trial-"));
  try {
    const proof = await trial(db, keys, { recoveryKey, folder });
    await noteProof(keys, nowMs);
    return proof;
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

async function trial(
  db: Kysely<RecordTables>,
  { recipients }: Keys,
  { recoveryKey, folder }: { recoveryKey: string; folder: string },
): Promise<Proof> {
  const file = join(folder, "trial.jsonl.gz.age");
  await withSnapshot(db, (snapshot) => writeSealed(file, dumpLines(snapshot, { trialRows }), { recipients }));
  const restored = newDatabase(join(folder, "record.sqlite"));
  try {
    let rows = 0;
    await loadDump(restored, readSealed(file, [recoveryKey]), {
      async beforeCommit(loaded, digests) {
        refuseUnequal(digests, await digestsOf(loaded));
        rows = Object.values(digests).reduce((sum, table) => sum + table.rows, 0);
      },
    });
    await openSecret(restored, recoveryKey);
    return { rows, photos: await openPhotos(restored, recoveryKey) };
  } finally {
    await restored.destroy();
  }
}

/** What the audit trail is sealed with has to come back too. */
async function openSecret(db: Kysely<RecordTables>, recoveryKey: string): Promise<void> {
  const sealed = (await readMark(db, "keySecret"))?.split(" ")[1];
  if (sealed === undefined) throw new KeyFault("damaged", "The record does not say which keys it has.");
  await unsealWith([recoveryKey], Buffer.from(sealed, "base64"));
}

async function openPhotos(db: Kysely<RecordTables>, recoveryKey: string): Promise<number> {
  const photos = await db.selectFrom("photo").select("sealed_key").execute();
  for (const { sealed_key } of photos) await unsealWith([recoveryKey], sealed_key);
  return photos.length;
}
