import type { Kysely } from "kysely";
import type { OpenRecord, RecordPlace } from "../open/index.ts";
import { recordOver } from "../open/index.ts";
import type { Progress } from "../store/index.ts";
import type { RecordTables } from "../store/schema.ts";
import { digestsOf, dumpLines } from "./dump.ts";
import { refuseUnequal } from "./equal.ts";
import type { Digests } from "./format.ts";
import { linesOf } from "./lines.ts";
import { loadDump } from "./load.ts";
import { note } from "./noted.ts";
import { withFrozen } from "./snapshot.ts";
import { intoFolder, refuseFullDatabase, refuseFullFolder, type Target, withDatabase } from "./target.ts";

type Db = Kysely<RecordTables>;

export interface MoveOptions {
  to: Target;
  keyFile?: RecordPlace["keyFile"];
  nowMs?: number;
  onProgress?: Progress;
  /** What arrived is read again and compared. */
  onComparing?: Progress;
  signal?: AbortSignal;
}

export interface Moved {
  /** Rows and hash of every table, the same on both sides. */
  tables: Digests;
}

/**
 * Carries a record to another place, which is empty, and proves that it arrived: the hash of every table there is the
 * one of here, or nothing is kept there. Nobody can write here meanwhile; what is here is left as it was.
 * @throws {CarryFault} @throws {KeyFault} @throws {DatabaseFault}
 */
export async function move(record: Pick<OpenRecord, "db" | "keys">, options: MoveOptions): Promise<Moved> {
  const { to, keyFile, nowMs = Date.now() } = options;
  // They are made here if they never were, so that both records have the same.
  await record.keys();
  return withFrozen(record.db, async (snapshot) => {
    if ("url" in to) {
      return withDatabase(to.url, (db) => carry(snapshot, db, { ...options, nowMs, keyFile }));
    }
    refuseFullFolder(to.dataDir);
    const fill = (db: Db) => carry(snapshot, db, { ...options, nowMs, keyFile });
    return (await intoFolder(to.dataDir, nowMs, fill)).result;
  });
}

async function carry(
  snapshot: Db,
  db: Db,
  { to, keyFile, nowMs, onProgress, onComparing, signal }: MoveOptions & { nowMs: number },
): Promise<Moved> {
  let tables: Digests = {};
  await loadDump(db, linesOf(dumpLines(snapshot, { nowMs, signal })), {
    onHeader: (header) => refuseFullDatabase(db, header),
    async beforeCommit(arrived, sent) {
      refuseUnequal(sent, await digestsOf(arrived, { onProgress: onComparing, signal }));
      tables = sent;
    },
    onProgress,
    signal,
  });
  await note(recordOver(db, { keyFile, ...to }), "moveRecord", nowMs);
  return { tables };
}
