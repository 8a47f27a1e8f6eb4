import type { Database } from "../database.ts";
import { linkLimits } from "../limits.ts";
import { hashOf } from "../secret.ts";

/**
 * What a passkey's answer is for. `secondFactor` is given out after the right password only, so that holding its
 * challenge proves the password.
 */
export type Purpose = "signIn" | "secondFactor" | "confirm" | "register" | "join";

/** Challenges for passkeys, each answered once. In a table: whichever process asked, any may get the answer. */
export class Challenges {
  private readonly db: Database;

  constructor(db: Database) {
    this.db = db;
  }

  /** @param aboutId the account or link it is for; null where nobody is known yet */
  async give(challenge: string, purpose: Purpose, aboutId: string | null, nowMs: number): Promise<void> {
    await this.db.deleteFrom("challenge").where("expires_ms", "<=", nowMs).execute();
    await this.db
      .insertInto("challenge")
      .values({
        challenge_hash: hashOf(challenge),
        purpose,
        about_id: aboutId,
        expires_ms: nowMs + linkLimits.challengeMs,
      })
      .execute();
  }

  /** Takes a challenge that was given for one of these purposes; null where there is none (any more). */
  async take(
    challenge: string,
    purposes: readonly Purpose[],
    nowMs: number,
  ): Promise<{ purpose: Purpose; aboutId: string | null } | null> {
    const row = await this.db
      .deleteFrom("challenge")
      .where("challenge_hash", "=", hashOf(challenge))
      .where("purpose", "in", purposes)
      .where("expires_ms", ">", nowMs)
      .returningAll()
      .executeTakeFirst();
    return row ? { purpose: row.purpose as Purpose, aboutId: row.about_id } : null;
  }
}
