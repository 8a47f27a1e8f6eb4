import type { Account } from "./account.ts";
import type { Database } from "./database.ts";
import { deviceMs } from "./limits.ts";
import { hashOf } from "./secret.ts";

type Whose = Pick<Account, "accountId" | "clinicId">;

/** Browsers that somebody signed in with before: strangers' failures never bar those. */
export class Devices {
  private readonly db: Database;

  constructor(db: Database) {
    this.db = db;
  }

  async isKnown({ accountId, clinicId }: Whose, secret: string, nowMs: number): Promise<boolean> {
    const row = await this.db
      .selectFrom("known_device")
      .select("last_ms")
      .where("clinic_id", "=", clinicId)
      .where("account_id", "=", accountId)
      .where("device_hash", "=", hashOf(secret))
      .executeTakeFirst();
    return row !== undefined && nowMs - Number(row.last_ms) < deviceMs;
  }

  async remember({ accountId, clinicId }: Whose, secret: string, nowMs: number): Promise<void> {
    await this.db
      .insertInto("known_device")
      .values({ account_id: accountId, clinic_id: clinicId, device_hash: hashOf(secret), last_ms: nowMs })
      .onConflict((conflict) =>
        conflict.columns(["account_id", "device_hash"]).doUpdateSet({ last_ms: nowMs }),
      )
      .execute();
  }

  async forgetAll({ accountId, clinicId }: Whose): Promise<void> {
    await this.db
      .deleteFrom("known_device")
      .where("clinic_id", "=", clinicId)
      .where("account_id", "=", accountId)
      .execute();
  }
}
