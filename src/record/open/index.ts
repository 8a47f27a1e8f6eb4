import type { Kysely } from "kysely";
import { AccountStore } from "../accounts/index.ts";
import { AuditTrail } from "../audit/index.ts";
import { Belonging } from "../belonging/index.ts";
import { Erasure, Ledger, ledgerPlace } from "../erasure/index.ts";
import { type KeyOptions, type Keys, openKeys } from "../keys/index.ts";
import { PhotoStore } from "../photo/index.ts";
import { type RecordStore, recordFile } from "../store/index.ts";
import { openPostgresDatabase } from "../store/postgres/index.ts";
import type { RecordTables } from "../store/schema.ts";
import { openSqliteDatabase } from "../store/sqlite/index.ts";
import { SqlStore } from "../store/sqlStore.ts";

/** Everything a clinic keeps, open: what is written about people, and what stands beside it. */
export interface OpenRecord {
  store: RecordStore;
  /** Who may sign in, and what lets them in. */
  accounts: AccountStore;
  /** Which clinic what belongs to. */
  belonging: Belonging;
  /** Its keys, opened at the first call; at the first call of all they are made. Throws `KeyFault`. */
  keys(): Promise<Keys>;
  photos: PhotoStore;
  /** Who saw and changed what. */
  audit: AuditTrail;
  /** The only physical delete. */
  erasure: Erasure;
  /** For the parts of `record` that keep tables of their own; nobody else builds queries. */
  db: Kysely<RecordTables>;
  close(): Promise<void>;
}

/** Where a record is kept: in a data folder, or in a database with a data folder beside it for the log alone. */
export interface RecordPlace {
  dataDir?: string;
  /** `postgres://…`; the record of the data folder is left alone. */
  url?: string;
  /** Another place for the key file than the usual one. */
  keyFile?: string;
}

/**
 * Opens a record where it is kept, and makes it where there is none.
 * @throws {DatabaseFault} where a database cannot be opened
 */
export async function openRecord({ dataDir, url, keyFile }: RecordPlace): Promise<OpenRecord> {
  return recordOver(await openDatabase({ dataDir, url }), { keyFile, dataDir });
}

async function openDatabase({ dataDir, url }: RecordPlace): Promise<Kysely<RecordTables>> {
  if (url !== undefined) return openPostgresDatabase(url);
  if (dataDir === undefined) throw new Error("a record is kept in a folder or in a database");
  return openSqliteDatabase(recordFile(dataDir));
}

/**
 * The parts of the record over a database that is open already.
 * @param places where its keys are; a record in memory, as tests have it, has none: its trail is chained, not sealed
 */
export function recordOver(db: Kysely<RecordTables>, places: KeyOptions | null = null): OpenRecord {
  const store = new SqlStore(db);
  const keys = openedOnce(() => openKeys(db, places ?? {}));
  const isKept = places !== null;
  const audit = new AuditTrail(db, isKept ? { key: async () => (await keys()).auditKey() } : {});
  const erasure = new Erasure(db, isKept ? { audit, ledger: async () => ledgerOf(await keys()) } : { audit });
  return {
    store,
    accounts: new AccountStore(db),
    belonging: new Belonging(db),
    keys,
    photos: new PhotoStore(db, keys),
    audit,
    erasure,
    db,
    close: () => store.close(),
  };
}

function ledgerOf({ file, recordId }: Keys): Ledger {
  return new Ledger(ledgerPlace(file, recordId));
}

/** One opening for all who ask; one that failed is tried again. */
function openedOnce<T>(open: () => Promise<T>): () => Promise<T> {
  let opened: Promise<T> | null = null;
  return () => {
    opened ??= open().catch((error) => {
      opened = null;
      throw error;
    });
    return opened;
  };
}
