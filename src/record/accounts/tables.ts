/** Tables of accounts as Kysely sees them. Whole numbers may come as text from PostgreSQL: `Number()` on reading. */
export interface AccountTables {
  account: AccountTable;
  account_session: SessionTable;
  passkey: PasskeyTable;
  account_link: LinkTable;
  challenge: { challenge_hash: string; purpose: string; about_id: string | null; expires_ms: number };
  known_device: { account_id: string; device_hash: string; clinic_id: string; last_ms: number };
  throttle: { about: string; failures: number; last_ms: number; not_before_ms: number };
}

export interface AccountTable {
  account_id: string;
  clinic_id: string;
  sign_in_name: string;
  /** The name without regard to case: one account of the whole database has it. */
  sign_in_key: string;
  display_name: string;
  role: string;
  person_id: string | null;
  password_hash: string | null;
  second_factor: number;
  demo: number;
  created_ms: number;
  closed_ms: number | null;
}

export interface SessionTable {
  session_id: string;
  clinic_id: string;
  account_id: string;
  listener: string;
  secret_hash: string;
  /** Of the secret before the last rotation. */
  previous_hash: string | null;
  device: string;
  created_ms: number;
  rotated_ms: number;
  last_seen_ms: number;
  strong_ms: number;
}

interface PasskeyTable {
  credential_id: string;
  clinic_id: string;
  account_id: string;
  rp_id: string;
  name: string;
  /** base64url */
  public_key: string;
  counter: number;
  /** JSON */
  transports: string;
  created_ms: number;
  last_used_ms: number | null;
}

export interface LinkTable {
  link_id: string;
  /** Null for a clinic that is still to be set up. */
  clinic_id: string | null;
  kind: string;
  token_hash: string;
  account_id: string | null;
  role: string | null;
  display_name: string | null;
  sign_in_name: string | null;
  made_by: string | null;
  created_ms: number;
  expires_ms: number;
}
