import type { Selectable } from "kysely";
import type { Account, Role } from "./account.ts";
import type { Database } from "./database.ts";
import type { AccountTable } from "./tables.ts";

type AccountRow = Selectable<AccountTable> & { passkeys: number };

/** Accounts with the number of their passkeys. */
export function accountRows(db: Database) {
  return db
    .selectFrom("account")
    .selectAll("account")
    .select((select) =>
      select
        .selectFrom("passkey")
        .select(({ fn }) => fn.countAll<number>().as("count"))
        .whereRef("passkey.account_id", "=", "account.account_id")
        .as("passkeys"),
    )
    .$castTo<AccountRow>();
}

export function accountFromRow(row: AccountRow): Account {
  return {
    accountId: row.account_id,
    clinicId: row.clinic_id,
    signInName: row.sign_in_name,
    displayName: row.display_name,
    role: row.role as Role,
    personId: row.person_id,
    hasPassword: row.password_hash !== null,
    passkeys: Number(row.passkeys),
    secondFactor: Number(row.second_factor) === 1,
    demo: Number(row.demo) === 1,
    createdMs: Number(row.created_ms),
    closedMs: row.closed_ms === null ? null : Number(row.closed_ms),
  };
}

/** An account of a clinic that was not closed. */
export async function openAccount(
  db: Database,
  clinicId: string,
  accountId: string,
): Promise<Account | null> {
  const row = await accountRows(db)
    .where("account.clinic_id", "=", clinicId)
    .where("account.account_id", "=", accountId)
    .where("account.closed_ms", "is", null)
    .executeTakeFirst();
  return row ? accountFromRow(row) : null;
}
