import type { Account, Passkey } from "../account.ts";
import { type Database, inOne } from "../database.ts";
import { AccountError } from "../error.ts";
import { openAccount } from "../rows.ts";

type Whose = Pick<Account, "accountId" | "clinicId">;

/** What is needed to check a passkey's answer. */
export interface PasskeyKey {
  credentialId: string;
  accountId: string;
  clinicId: string;
  rpId: string;
  /** base64url */
  publicKey: string;
  counter: number;
  transports: string[];
}

export class Passkeys {
  private readonly db: Database;

  constructor(db: Database) {
    this.db = db;
  }

  async add(key: PasskeyKey, name: string, nowMs: number): Promise<void> {
    await this.db
      .insertInto("passkey")
      .values({
        credential_id: key.credentialId,
        clinic_id: key.clinicId,
        account_id: key.accountId,
        rp_id: key.rpId,
        name,
        public_key: key.publicKey,
        counter: key.counter,
        transports: JSON.stringify(key.transports),
        created_ms: nowMs,
        last_used_ms: null,
      })
      .execute();
  }

  async list({ accountId, clinicId }: Whose): Promise<Passkey[]> {
    const rows = await this.of({ accountId, clinicId }).orderBy("created_ms").execute();
    return rows.map((row) => ({
      credentialId: row.credential_id,
      name: row.name,
      rpId: row.rp_id,
      createdMs: Number(row.created_ms),
      lastUsedMs: row.last_used_ms === null ? null : Number(row.last_used_ms),
    }));
  }

  async keys(whose: Whose, rpId: string): Promise<PasskeyKey[]> {
    return (await this.of(whose).where("rp_id", "=", rpId).execute()).map(keyFromRow);
  }

  /** Whose passkey this is: asked before anybody is known, so in every clinic. */
  async byId(credentialId: string): Promise<PasskeyKey | null> {
    const row = await this.db
      .selectFrom("passkey")
      .selectAll()
      .where("credential_id", "=", credentialId)
      .executeTakeFirst();
    return row ? keyFromRow(row) : null;
  }

  async used({ credentialId, clinicId }: PasskeyKey, counter: number, nowMs: number): Promise<void> {
    await this.db
      .updateTable("passkey")
      .set({ counter, last_used_ms: nowMs })
      .where("clinic_id", "=", clinicId)
      .where("credential_id", "=", credentialId)
      .execute();
  }

  /**
   * Takes a passkey away; with the last one goes the demand for both factors.
   * @returns whether there was one
   * @throws {AccountError} `lastWayIn` where there is no password
   */
  async remove(whose: Whose, credentialId: string): Promise<boolean> {
    return inOne(this.db, async (db) => {
      const { numDeletedRows } = await db
        .deleteFrom("passkey")
        .where("clinic_id", "=", whose.clinicId)
        .where("account_id", "=", whose.accountId)
        .where("credential_id", "=", credentialId)
        .executeTakeFirstOrThrow();
      if (numDeletedRows === 0n) return false;
      const account = await openAccount(db, whose.clinicId, whose.accountId);
      if (account && account.passkeys === 0) {
        if (!account.hasPassword) throw new AccountError("lastWayIn");
        await db
          .updateTable("account")
          .set({ second_factor: 0 })
          .where("clinic_id", "=", whose.clinicId)
          .where("account_id", "=", whose.accountId)
          .execute();
      }
      return true;
    });
  }

  async removeAll({ accountId, clinicId }: Whose): Promise<void> {
    await this.db
      .deleteFrom("passkey")
      .where("clinic_id", "=", clinicId)
      .where("account_id", "=", accountId)
      .execute();
  }

  private of({ accountId, clinicId }: Whose) {
    return this.db
      .selectFrom("passkey")
      .selectAll()
      .where("clinic_id", "=", clinicId)
      .where("account_id", "=", accountId);
  }
}

function keyFromRow(row: {
  credential_id: string;
  account_id: string;
  clinic_id: string;
  rp_id: string;
  public_key: string;
  counter: number;
  transports: string;
}): PasskeyKey {
  return {
    credentialId: row.credential_id,
    accountId: row.account_id,
    clinicId: row.clinic_id,
    rpId: row.rp_id,
    publicKey: row.public_key,
    counter: Number(row.counter),
    transports: JSON.parse(row.transports) as string[],
  };
}
