import { createHash } from "node:crypto";
import { sql } from "kysely";
import { type Database, inOne } from "../database.ts";
import { throttleForgetMs } from "../limits.ts";
import { delayMs, slowings } from "./delay.ts";

export { delayMs, type Slowing, slowings } from "./delay.ts";

/** What is counted: an account at a known browser, an account at all others, an address. */
export interface Counted {
  kind: keyof typeof slowings;
  /** What makes it the one; kept as a hash. */
  parts: readonly string[];
}

export type Attempt = { allowed: true; counted: readonly Counted[] } | { allowed: false; waitMs: number };

/** Counts failed sign-ins and makes the next ones wait; kept in a table, so that every process counts together. */
export class Throttle {
  private readonly db: Database;

  constructor(db: Database) {
    this.db = db;
  }

  /**
   * Takes an attempt, and counts it as failed beforehand: a hundred guesses sent at once must not all be the first.
   * {@link succeeded} takes that back.
   */
  async take(counted: readonly Counted[], nowMs: number): Promise<Attempt> {
    return inOne(this.db, async (db) => {
      const throttle = new Throttle(db);
      await throttle.forget(nowMs);
      for (const one of counted) await throttle.touch(one, nowMs);
      const rows = await Promise.all(counted.map((one) => throttle.row(one)));
      const waitMs = Math.max(0, ...rows.map((row) => Number(row.not_before_ms) - nowMs));
      if (waitMs > 0) return { allowed: false, waitMs };
      for (const [index, one] of counted.entries()) {
        const failures = Number(rows[index]!.failures) + 1;
        await throttle.write(one, {
          failures,
          last_ms: nowMs,
          not_before_ms: nowMs + delayMs(failures, slowings[one.kind]),
        });
      }
      return { allowed: true, counted };
    });
  }

  /** The attempt was no failure. A known browser starts afresh; what others share keeps the rest of its count. */
  async succeeded(counted: readonly Counted[]): Promise<void> {
    await inOne(this.db, async (db) => {
      for (const one of counted) {
        if (one.kind === "known") await db.deleteFrom("throttle").where("about", "=", nameOf(one)).execute();
        else {
          await db
            .updateTable("throttle")
            .set(({ eb }) => ({ failures: eb("failures", "-", 1) }))
            .where("about", "=", nameOf(one))
            .where("failures", ">", 0)
            .execute();
        }
      }
    });
  }

  /** Makes sure of a row, and holds it until the transaction ends. */
  private async touch(one: Counted, nowMs: number): Promise<void> {
    // Where the clock went back meanwhile, nobody waits longer than the longest wait.
    const latest = nowMs + slowings[one.kind].capMs;
    const soonest = sql<number>`case when throttle.not_before_ms > ${latest} then ${latest} else throttle.not_before_ms end`;
    await this.db
      .insertInto("throttle")
      .values({ about: nameOf(one), failures: 0, last_ms: nowMs, not_before_ms: 0 })
      .onConflict((conflict) => conflict.column("about").doUpdateSet({ not_before_ms: soonest }))
      .execute();
  }

  private row(one: Counted) {
    return this.db
      .selectFrom("throttle")
      .selectAll()
      .where("about", "=", nameOf(one))
      .executeTakeFirstOrThrow();
  }

  private async write(
    one: Counted,
    values: { failures: number; last_ms: number; not_before_ms: number },
  ): Promise<void> {
    await this.db.updateTable("throttle").set(values).where("about", "=", nameOf(one)).execute();
  }

  private async forget(nowMs: number): Promise<void> {
    await this.db
      .deleteFrom("throttle")
      .where("last_ms", "<=", nowMs - throttleForgetMs)
      .execute();
  }
}

/** Addresses and names of strangers have no place in a table of failures. */
function nameOf({ kind, parts }: Counted): string {
  return `${kind}:${createHash("sha256").update(JSON.stringify(parts)).digest("base64url")}`;
}
