import { writeSync } from "node:fs";
import { AuditTrail, linesOfWrite } from "../../src/record/audit/index.ts";
import { recordFile } from "../../src/record/store/index.ts";
import { openSqliteDatabase } from "../../src/record/store/sqlite/index.ts";
import { SqlStore } from "../../src/record/store/sqlStore.ts";
import { now } from "../record/samples.ts";
import { jobOf } from "./job.ts";

/**
 * Writes a job's batches, as the bench does: entries, projections and the audit line in one transaction. Says the ids
 * of each batch once it is acknowledged. Meant to be killed.
 */
const [dataDir = "", seed = "1", from = "0", auditKey = ""] = process.argv.slice(2);
const db = await openSqliteDatabase(recordFile(dataDir));
const store = new SqlStore(db);
const audit = new AuditTrail(db, { key: async () => Buffer.from(auditKey, "hex") });
await audit.open();
writeSync(1, "ready\n");
for (const batch of jobOf(Number(seed)).slice(Number(from))) {
  const writing = { atMs: now, accountId: null, sessionId: null, action: "writeEntries" } as const;
  await store.append(batch, { alongside: linesOfWrite(audit, writing)(batch) });
  writeSync(1, `${batch.map(({ id }) => id).join()}\n`);
}
writeSync(1, "done\n");
