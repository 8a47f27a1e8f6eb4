import type { Selectable } from "kysely";

/** That a person was erased; of the person it keeps the id. */
export interface Tombstone {
  clinicId: string;
  personId: string;
  erasedMs: number;
  /** Null where it was done at the machine itself. */
  accountId: string | null;
}

export interface TombstoneTable {
  clinic_id: string;
  person_id: string;
  erased_ms: number;
  account_id: string | null;
}

export function tombstoneFromRow(row: Selectable<TombstoneTable>): Tombstone {
  return {
    clinicId: row.clinic_id,
    personId: row.person_id,
    erasedMs: Number(row.erased_ms),
    accountId: row.account_id,
  };
}

export function tombstoneToRow(tombstone: Tombstone): TombstoneTable {
  return {
    clinic_id: tombstone.clinicId,
    person_id: tombstone.personId,
    erased_ms: tombstone.erasedMs,
    account_id: tombstone.accountId,
  };
}
