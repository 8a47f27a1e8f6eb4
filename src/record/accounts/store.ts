import { v4 as uuidv4 } from "uuid";
import { type Account, benchRoles, homeRoles, type Listener, type Role } from "./account.ts";
import { type Database, inOne } from "./database.ts";
import { Devices } from "./devices.ts";
import { AccountError } from "./error.ts";
import { Links } from "./links.ts";
import { signInKey } from "./names.ts";
import { Challenges } from "./passkeys/challenges.ts";
import { Passkeys } from "./passkeys/passkeys.ts";
import { accountFromRow, accountRows, openAccount } from "./rows.ts";
import { Sessions } from "./sessions.ts";
import { Throttle } from "./throttle/index.ts";

export interface NewAccount {
  accountId?: string;
  clinicId: string;
  signInName: string;
  displayName: string;
  role: Role;
  personId?: string | null;
  /** Null where a passkey is the way in. */
  passwordHash: string | null;
  demo?: boolean;
}

/** Accounts of every clinic in the database, with what lets them in. */
export class AccountStore {
  readonly sessions: Sessions;
  readonly links: Links;
  readonly passkeys: Passkeys;
  readonly challenges: Challenges;
  readonly devices: Devices;
  readonly throttle: Throttle;
  private readonly db: Database;

  constructor(db: Database) {
    this.db = db;
    this.sessions = new Sessions(db);
    this.links = new Links(db);
    this.passkeys = new Passkeys(db);
    this.challenges = new Challenges(db);
    this.devices = new Devices(db);
    this.throttle = new Throttle(db);
  }

  /** Several steps, all or none; they may run more than once and keep nothing outside the database. */
  together<T>(work: (accounts: AccountStore) => Promise<T>): Promise<T> {
    return inOne(this.db, (trx) => work(new AccountStore(trx)));
  }

  /** The same within a transaction that somebody else began. */
  within(trx: Database): AccountStore {
    return new AccountStore(trx);
  }

  /** @throws {AccountError} `nameTaken` */
  async create(account: NewAccount, nowMs: number): Promise<Account> {
    const accountId = account.accountId ?? uuidv4();
    const taken = await this.db
      .insertInto("account")
      .values({
        account_id: accountId,
        clinic_id: account.clinicId,
        sign_in_name: account.signInName,
        sign_in_key: signInKey(account.signInName),
        display_name: account.displayName,
        role: account.role,
        person_id: account.personId ?? null,
        password_hash: account.passwordHash,
        second_factor: 0,
        demo: account.demo ? 1 : 0,
        created_ms: nowMs,
        closed_ms: null,
      })
      .onConflict((conflict) => conflict.doNothing())
      .executeTakeFirstOrThrow();
    if (taken.numInsertedOrUpdatedRows === 0n) throw new AccountError("nameTaken");
    return (await this.open(account.clinicId, accountId))!;
  }

  async list(clinicId: string): Promise<Account[]> {
    const rows = await accountRows(this.db)
      .where("account.clinic_id", "=", clinicId)
      .orderBy("account.created_ms")
      .orderBy("account.account_id")
      .execute();
    return rows.map(accountFromRow);
  }

  /** An account of the clinic, closed or not. */
  async byId(clinicId: string, accountId: string): Promise<Account | null> {
    const row = await accountRows(this.db)
      .where("account.clinic_id", "=", clinicId)
      .where("account.account_id", "=", accountId)
      .executeTakeFirst();
    return row ? accountFromRow(row) : null;
  }

  open(clinicId: string, accountId: string): Promise<Account | null> {
    return openAccount(this.db, clinicId, accountId);
  }

  /** The open account of this name, in whichever clinic it is: names are unique in the database. */
  async byName(name: string): Promise<Account | null> {
    const row = await accountRows(this.db)
      .where("account.sign_in_key", "=", signInKey(name))
      .where("account.closed_ms", "is", null)
      .executeTakeFirst();
    return row ? accountFromRow(row) : null;
  }

  /** Who may try to sign in at a listener under this name, with the hash of their password. */
  async forSignIn(
    name: string,
    listener: Listener,
  ): Promise<{ account: Account; passwordHash: string | null } | null> {
    const account = await this.byName(name);
    if (!account || account.demo || !rolesAt[listener].includes(account.role)) return null;
    return { account, passwordHash: await this.passwordHash(account) };
  }

  async passwordHash({
    clinicId,
    accountId,
  }: Pick<Account, "clinicId" | "accountId">): Promise<string | null> {
    const row = await this.db
      .selectFrom("account")
      .select("password_hash")
      .where("clinic_id", "=", clinicId)
      .where("account_id", "=", accountId)
      .executeTakeFirst();
    return row?.password_hash ?? null;
  }

  async setPassword(
    { clinicId, accountId }: Pick<Account, "clinicId" | "accountId">,
    hash: string,
  ): Promise<void> {
    await this.update(clinicId, accountId, { password_hash: hash });
  }

  /** @throws {AccountError} `needsBoth` where there is no password or no passkey to ask for */
  async setSecondFactor(
    { clinicId, accountId }: Pick<Account, "clinicId" | "accountId">,
    required: boolean,
  ): Promise<void> {
    await this.together(async (accounts) => {
      const account = await accounts.open(clinicId, accountId);
      if (required && !(account?.hasPassword && account.passkeys > 0)) throw new AccountError("needsBoth");
      await accounts.update(clinicId, accountId, { second_factor: required ? 1 : 0 });
    });
  }

  /** @throws {AccountError} `lastLead` where the clinic would be left without one */
  async change(
    clinicId: string,
    accountId: string,
    { role, displayName }: { role?: Role; displayName?: string },
  ): Promise<Account> {
    return this.together(async (accounts) => {
      await accounts.keepingALead(clinicId, () =>
        accounts.update(clinicId, accountId, {
          ...(role === undefined ? {} : { role }),
          ...(displayName === undefined ? {} : { display_name: displayName }),
        }),
      );
      return (await accounts.byId(clinicId, accountId))!;
    });
  }

  /** Closes an account with everything that lets it in; its name stays beside what it wrote. @throws {AccountError} `lastLead` */
  async close(clinicId: string, accountId: string, nowMs: number): Promise<Account> {
    return this.together(async (accounts) => {
      await accounts.keepingALead(clinicId, () =>
        accounts.update(clinicId, accountId, { closed_ms: nowMs, password_hash: null, second_factor: 0 }),
      );
      const account = { clinicId, accountId };
      await accounts.sessions.endAll(account);
      await accounts.passkeys.removeAll(account);
      await accounts.devices.forgetAll(account);
      await accounts.links.voidOf(account);
      return (await accounts.byId(clinicId, accountId))!;
    });
  }

  /** Clinics of these in which nobody leads; the demo's account counts as somebody. */
  async withoutLead(clinicIds: readonly string[]): Promise<string[]> {
    const led = await this.db
      .selectFrom("account")
      .select("clinic_id")
      .distinct()
      .where("role", "=", "lead")
      .where("closed_ms", "is", null)
      .execute();
    const known = new Set(led.map((row) => row.clinic_id));
    return clinicIds.filter((id) => !known.has(id));
  }

  /** Whether anybody at all can sign in to lead. */
  async isSetUp(): Promise<boolean> {
    const row = await this.db
      .selectFrom("account")
      .select("account_id")
      .where("role", "=", "lead")
      .where("closed_ms", "is", null)
      .limit(1)
      .executeTakeFirst();
    return row !== undefined;
  }

  /** The demo's own account. */
  async demoAccount(): Promise<Account | null> {
    const row = await accountRows(this.db)
      .where("account.demo", "=", 1)
      .where("account.closed_ms", "is", null)
      .executeTakeFirst();
    return row ? accountFromRow(row) : null;
  }

  private async update(clinicId: string, accountId: string, columns: Partial<AccountColumns>): Promise<void> {
    if (Object.keys(columns).length === 0) return;
    await this.db
      .updateTable("account")
      .set(columns)
      .where("clinic_id", "=", clinicId)
      .where("account_id", "=", accountId)
      .execute();
  }

  /** Two leads who close each other at once would leave none: the first of them holds the leads' rows meanwhile. */
  private async keepingALead(clinicId: string, work: () => Promise<void>): Promise<void> {
    const leads = () =>
      this.db
        .updateTable("account")
        .set({ role: "lead" })
        .where("clinic_id", "=", clinicId)
        .where("role", "=", "lead")
        .where("closed_ms", "is", null)
        .executeTakeFirstOrThrow();
    const before = await leads();
    await work();
    const after = await leads();
    if (before.numUpdatedRows > 0n && after.numUpdatedRows === 0n) throw new AccountError("lastLead");
  }
}

interface AccountColumns {
  role: string;
  display_name: string;
  password_hash: string | null;
  second_factor: number;
  closed_ms: number;
}

const rolesAt: Record<Listener, readonly Role[]> = { bench: benchRoles, home: homeRoles };
