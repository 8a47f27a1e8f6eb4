import { existsSync } from "node:fs";
import type { Tombstone } from "../erasure/index.ts";
import { readMark } from "../keys/index.ts";
import { recordOver } from "../open/index.ts";
import { recordFile } from "../store/index.ts";
import { readOnly } from "./snapshot.ts";

/** What is known of the record that stands where another is to go. */
export interface Standing {
  /** Null where it cannot be read, or was never given one. */
  recordId: string | null;
  /** Null where it cannot be read. */
  entries: number | null;
  /** People who were erased from it. */
  tombstones: Tombstone[];
}

/** Looks at the record of a folder without changing anything; null where there is none. */
export async function standingIn(dataDir: string): Promise<Standing | null> {
  const file = recordFile(dataDir);
  if (!existsSync(file)) return null;
  const db = readOnly(file);
  // What cannot be read is what a restore is for.
  const orNull = <T>(read: Promise<T>): Promise<T | null> => read.catch(() => null);
  try {
    const count = db.selectFrom("entry").select(({ fn }) => fn.countAll<number>().as("entries"));
    return {
      recordId: await orNull(readMark(db, "recordId")),
      entries: await orNull(count.executeTakeFirstOrThrow().then((row) => Number(row.entries))),
      tombstones: (await orNull(recordOver(db).erasure.tombstones())) ?? [],
    };
  } finally {
    await db.destroy();
  }
}
