import type { Selectable } from "kysely";
import { v4 as uuidv4 } from "uuid";
import type { Account, Listener, SessionLine, SignedIn } from "./account.ts";
import type { Database } from "./database.ts";
import { sessionLimits as limits } from "./limits.ts";
import { openAccount } from "./rows.ts";
import { hashOf, newSecret } from "./secret.ts";
import type { SessionTable } from "./tables.ts";

export interface Resolved {
  signedIn: SignedIn;
  /** To be put into the cookie in place of the secret that was sent; null: that one still holds. */
  freshSecret: string | null;
}

/** Sessions: who is signed in where, by the hash of a secret that a cookie holds. */
export class Sessions {
  private readonly db: Database;

  constructor(db: Database) {
    this.db = db;
  }

  /** Signs an account in, with a secret of its own; whatever the browser had before is nobody's any more. */
  async start(
    { accountId, clinicId }: Pick<Account, "accountId" | "clinicId">,
    { listener, device, nowMs }: { listener: Listener; device: string; nowMs: number },
  ): Promise<{ sessionId: string; secret: string }> {
    const secret = newSecret();
    const sessionId = uuidv4();
    await this.db
      .deleteFrom("account_session")
      .where((where) =>
        where.or([
          where("last_seen_ms", "<=", nowMs - limits.idleMs),
          where("created_ms", "<=", nowMs - limits.absoluteMs),
        ]),
      )
      .execute();
    await this.db
      .insertInto("account_session")
      .values({
        session_id: sessionId,
        clinic_id: clinicId,
        account_id: accountId,
        listener,
        secret_hash: hashOf(secret),
        previous_hash: null,
        device,
        created_ms: nowMs,
        rotated_ms: nowMs,
        last_seen_ms: nowMs,
        strong_ms: nowMs,
      })
      .execute();
    return { sessionId, secret };
  }

  /**
   * Whose session a secret opens; null where it opens none, or none any more.
   * @param attended somebody asks, as against a page by itself: only that puts off the end
   */
  async resolve(
    secret: string,
    listener: Listener,
    nowMs: number,
    { attended = true }: { attended?: boolean } = {},
  ): Promise<Resolved | null> {
    const hash = hashOf(secret);
    const current = await this.by("secret_hash", hash, listener);
    const row = current ?? (await this.justRotated(hash, listener, nowMs));
    if (!row || !isAlive(row, nowMs)) return null;
    const account = await openAccount(this.db, row.clinic_id, row.account_id);
    if (!account) return null;
    const isDue = current !== undefined && nowMs - Number(row.rotated_ms) >= limits.rotateMs;
    const freshSecret = isDue ? await this.rotate(row.session_id, hash, nowMs) : null;
    const seenMs = attended ? await this.see(row, nowMs) : Number(row.last_seen_ms);
    const strongUntilMs = Number(row.strong_ms) + limits.strongMs;
    const endsMs = { idle: seenMs + limits.idleMs, absolute: Number(row.created_ms) + limits.absoluteMs };
    return { signedIn: { account, sessionId: row.session_id, strongUntilMs, endsMs }, freshSecret };
  }

  /** Notes that whoever holds the session has just proved who they are. @returns its new secret */
  async strengthen({ sessionId }: Pick<SignedIn, "sessionId">, nowMs: number): Promise<string> {
    const secret = newSecret();
    await this.db
      .updateTable("account_session")
      .set(({ ref }) => ({
        previous_hash: ref("secret_hash"),
        secret_hash: hashOf(secret),
        rotated_ms: nowMs,
        strong_ms: nowMs,
      }))
      .where("session_id", "=", sessionId)
      .execute();
    return secret;
  }

  async list(account: Pick<Account, "accountId" | "clinicId">, nowMs: number): Promise<SessionLine[]> {
    const rows = await this.db
      .selectFrom("account_session")
      .selectAll()
      .where("clinic_id", "=", account.clinicId)
      .where("account_id", "=", account.accountId)
      .orderBy("created_ms", "desc")
      .execute();
    return rows
      .filter((row) => isAlive(row, nowMs))
      .map((row) => ({
        sessionId: row.session_id,
        createdMs: Number(row.created_ms),
        lastSeenMs: Number(row.last_seen_ms),
        device: row.device,
      }));
  }

  async has(account: Pick<Account, "accountId" | "clinicId">, sessionId: string): Promise<boolean> {
    const row = await this.db
      .selectFrom("account_session")
      .select("session_id")
      .where("clinic_id", "=", account.clinicId)
      .where("account_id", "=", account.accountId)
      .where("session_id", "=", sessionId)
      .executeTakeFirst();
    return row !== undefined;
  }

  /** Ends one session of an account. @returns whether there was one */
  async end(account: Pick<Account, "accountId" | "clinicId">, sessionId: string): Promise<boolean> {
    const { numDeletedRows } = await this.db
      .deleteFrom("account_session")
      .where("clinic_id", "=", account.clinicId)
      .where("account_id", "=", account.accountId)
      .where("session_id", "=", sessionId)
      .executeTakeFirstOrThrow();
    return numDeletedRows > 0n;
  }

  /** Ends every session of an account but, where it is named, one. */
  async endAll(
    account: Pick<Account, "accountId" | "clinicId">,
    { but }: { but?: string } = {},
  ): Promise<void> {
    let query = this.db
      .deleteFrom("account_session")
      .where("clinic_id", "=", account.clinicId)
      .where("account_id", "=", account.accountId);
    if (but !== undefined) query = query.where("session_id", "!=", but);
    await query.execute();
  }

  private by(column: "secret_hash" | "previous_hash", hash: string, listener: Listener) {
    return this.db
      .selectFrom("account_session")
      .selectAll()
      .where(column, "=", hash)
      .where("listener", "=", listener)
      .executeTakeFirst();
  }

  private async justRotated(hash: string, listener: Listener, nowMs: number) {
    const row = await this.by("previous_hash", hash, listener);
    return row && nowMs - Number(row.rotated_ms) < limits.graceMs ? row : undefined;
  }

  /** Of two requests at once, one gets the new secret; the other goes on with the old one for a moment. */
  private async rotate(sessionId: string, hash: string, nowMs: number): Promise<string | null> {
    const secret = newSecret();
    const { numUpdatedRows } = await this.db
      .updateTable("account_session")
      .set({ previous_hash: hash, secret_hash: hashOf(secret), rotated_ms: nowMs })
      .where("session_id", "=", sessionId)
      .where("secret_hash", "=", hash)
      .executeTakeFirstOrThrow();
    return numUpdatedRows > 0n ? secret : null;
  }

  /** @returns when the session was last seen, as it now stands on disk */
  private async see({ session_id, last_seen_ms }: Selectable<SessionTable>, nowMs: number): Promise<number> {
    if (nowMs - Number(last_seen_ms) < limits.seenMs) return Number(last_seen_ms);
    await this.db
      .updateTable("account_session")
      .set({ last_seen_ms: nowMs })
      .where("session_id", "=", session_id)
      .execute();
    return nowMs;
  }
}

function isAlive({ created_ms, last_seen_ms }: Selectable<SessionTable>, nowMs: number): boolean {
  return nowMs - Number(last_seen_ms) < limits.idleMs && nowMs - Number(created_ms) < limits.absoluteMs;
}
