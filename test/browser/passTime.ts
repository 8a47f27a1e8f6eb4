import { join } from "node:path";
import Database from "better-sqlite3";

/** Has time pass for somebody's sessions: all that they remember lies so much further back. */
export function passTime(dataDir: string, accountId: string, minutes: number): void {
  const record = new Database(join(dataDir, "record.sqlite"), { timeout: 5000 });
  const ms = minutes * 60_000;
  record
    .prepare(
      `update account_session set created_ms = created_ms - :ms, rotated_ms = rotated_ms - :ms,
         last_seen_ms = last_seen_ms - :ms, strong_ms = strong_ms - :ms
       where account_id = :accountId`,
    )
    .run({ ms, accountId });
  record.close();
}
