import type { Selectable } from "kysely";
import { v4 as uuidv4 } from "uuid";
import type { Account, Role } from "./account.ts";
import type { Database } from "./database.ts";
import { AccountError } from "./error.ts";
import { linkLimits } from "./limits.ts";
import { hashOf, newSecret } from "./secret.ts";
import type { LinkTable } from "./tables.ts";

/**
 * What a one-time link is for: the first lead of a record or of a clinic, a further clinic, a colleague, an account
 * whose owner cannot get in.
 */
export type LinkKind = "setUp" | "newClinic" | "join" | "recover";

export interface Link {
  linkId: string;
  kind: LinkKind;
  /** Null for a clinic that is still to be set up. */
  clinicId: string | null;
  /** The account it opens, or the one that it will make. */
  accountId: string | null;
  role: Role | null;
  displayName: string | null;
  signInName: string | null;
  expiresMs: number;
}

/** A link that somebody of a clinic was given. */
export type WaitingLink = Link & { kind: "join" | "recover" };

/** A link's secret, shown once to whoever made it. */
export interface NewLink {
  token: string;
  linkId: string;
  expiresMs: number;
}

/** One-time links. The table keeps the hash of their token; whoever uses one takes it away. */
export class Links {
  private readonly db: Database;

  constructor(db: Database) {
    this.db = db;
  }

  /** For the first lead: of the record where there is no clinic yet, of a clinic that has nobody to lead it. */
  setUp(clinicId: string | null, nowMs: number): Promise<NewLink> {
    return this.make({ kind: "setUp", clinic_id: clinicId }, linkLimits.setUpMs, nowMs);
  }

  newClinic(nowMs: number): Promise<NewLink> {
    return this.make({ kind: "newClinic", clinic_id: null }, linkLimits.setUpMs, nowMs);
  }

  join(
    clinicId: string,
    { role, displayName, signInName }: { role: Role; displayName: string; signInName?: string },
    madeBy: string,
    nowMs: number,
  ): Promise<NewLink> {
    const about = {
      account_id: uuidv4(),
      role,
      display_name: displayName,
      sign_in_name: signInName ?? null,
      made_by: madeBy,
    };
    return this.make({ kind: "join", clinic_id: clinicId, ...about }, linkLimits.joinMs, nowMs);
  }

  /** Only the last recovery link of an account holds. */
  async recover(
    { accountId, clinicId }: Pick<Account, "accountId" | "clinicId">,
    madeBy: string | null,
    nowMs: number,
  ): Promise<NewLink> {
    await this.voidOf({ accountId, clinicId });
    const about = { clinic_id: clinicId, account_id: accountId, made_by: madeBy };
    return this.make({ kind: "recover", ...about }, linkLimits.recoverMs, nowMs);
  }

  /** What a token is for. @throws {AccountError} `linkSpent` where it is for nothing, or not any more */
  async look(token: string, kinds: readonly LinkKind[], nowMs: number): Promise<Link> {
    const row = await this.db
      .selectFrom("account_link")
      .selectAll()
      .where("token_hash", "=", hashOf(token))
      .where("kind", "in", kinds)
      .where("expires_ms", ">", nowMs)
      .executeTakeFirst();
    if (!row) throw new AccountError("linkSpent");
    return linkFromRow(row);
  }

  /**
   * Uses a token up. Of two who use it at once, one gets it. A set-up link takes every other of its kind with it.
   * @throws {AccountError} `linkSpent`
   */
  async spend(token: string, kinds: readonly LinkKind[], nowMs: number): Promise<Link> {
    const link = await this.look(token, kinds, nowMs);
    const { numDeletedRows } = await this.db
      .deleteFrom("account_link")
      .where("token_hash", "=", hashOf(token))
      .executeTakeFirstOrThrow();
    if (numDeletedRows === 0n) throw new AccountError("linkSpent");
    if (link.kind === "setUp") await this.voidSetUp(link.clinicId);
    return link;
  }

  /** Links that are waiting to be used in a clinic. */
  async waiting(clinicId: string, nowMs: number): Promise<WaitingLink[]> {
    const rows = await this.db
      .selectFrom("account_link")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("kind", "in", ["join", "recover"])
      .where("expires_ms", ">", nowMs)
      .orderBy("created_ms")
      .execute();
    return rows.map((row) => linkFromRow(row) as WaitingLink);
  }

  async has(clinicId: string, linkId: string): Promise<boolean> {
    const row = await this.db
      .selectFrom("account_link")
      .select("link_id")
      .where("clinic_id", "=", clinicId)
      .where("link_id", "=", linkId)
      .executeTakeFirst();
    return row !== undefined;
  }

  /** Takes a waiting link back. @returns whether there was one */
  async void(clinicId: string, linkId: string): Promise<boolean> {
    const { numDeletedRows } = await this.db
      .deleteFrom("account_link")
      .where("clinic_id", "=", clinicId)
      .where("link_id", "=", linkId)
      .executeTakeFirstOrThrow();
    return numDeletedRows > 0n;
  }

  async voidOf({ accountId, clinicId }: Pick<Account, "accountId" | "clinicId">): Promise<void> {
    await this.db
      .deleteFrom("account_link")
      .where("clinic_id", "=", clinicId)
      .where("account_id", "=", accountId)
      .execute();
  }

  private async voidSetUp(clinicId: string | null): Promise<void> {
    const setUp = this.db.deleteFrom("account_link").where("kind", "=", "setUp");
    await (clinicId === null
      ? setUp.where("clinic_id", "is", null)
      : setUp.where("clinic_id", "=", clinicId)
    ).execute();
  }

  private async make(
    about: Pick<LinkTable, "kind" | "clinic_id"> & Partial<LinkTable>,
    holdsMs: number,
    nowMs: number,
  ): Promise<NewLink> {
    await this.db.deleteFrom("account_link").where("expires_ms", "<=", nowMs).execute();
    const token = newSecret();
    const linkId = uuidv4();
    const expiresMs = nowMs + holdsMs;
    await this.db
      .insertInto("account_link")
      .values({
        account_id: null,
        role: null,
        display_name: null,
        sign_in_name: null,
        made_by: null,
        ...about,
        link_id: linkId,
        token_hash: hashOf(token),
        created_ms: nowMs,
        expires_ms: expiresMs,
      })
      .execute();
    return { token, linkId, expiresMs };
  }
}

function linkFromRow(row: Selectable<LinkTable>): Link {
  return {
    linkId: row.link_id,
    kind: row.kind as LinkKind,
    clinicId: row.clinic_id,
    accountId: row.account_id,
    role: row.role as Role | null,
    displayName: row.display_name,
    signInName: row.sign_in_name,
    expiresMs: Number(row.expires_ms),
  };
}
