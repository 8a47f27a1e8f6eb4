import type { Kysely } from "kysely";
import { CarryFault, migrationsOf, withFileSnapshot, withSnapshot } from "../carry/index.ts";
import { KeyFault, type KeyOptions, readMark } from "../keys/index.ts";
import { type OpenRecord, recordOver } from "../open/index.ts";
import { engineOf } from "../store/engine.ts";
import type { Progress } from "../store/index.ts";
import { migrationNames } from "../store/migrations/index.ts";
import type { RecordTables } from "../store/schema.ts";
import { checkEntries } from "./entries.ts";
import type { Finding } from "./finding.ts";
import { checkLists } from "./lists.ts";
import { checkPages } from "./pages.ts";
import { checkPhotos } from "./photos.ts";

export { type CheckedPart, type Finding, mendedBy } from "./finding.ts";

type Db = Kysely<RecordTables>;

export interface CheckOptions {
  places: KeyOptions;
  /** Each finding as soon as it is known. */
  onFinding(finding: Finding): void | Promise<void>;
  onEntries?: Progress;
  onPeople?: Progress;
  onPhotos?: Progress;
  signal?: AbortSignal;
}

/**
 * Looks through a whole record and changes nothing: pages, entries, lists, photographs, audit trail. It is seen as it
 * stands at one instant, so that nothing is found that was only just being written.
 * @param where the file of a data folder, which need not be whole, or a database that is open
 */
export async function checkRecord(
  where: { file: string } | { db: Db },
  options: CheckOptions,
): Promise<void> {
  const check = async (snapshot: Db) => {
    for await (const finding of findingsIn(snapshot, options)) await options.onFinding(finding);
  };
  try {
    await ("file" in where ? withFileSnapshot(where.file, check) : withSnapshot(where.db, check));
  } catch (error) {
    if (!isDamage(error)) throw error;
    await options.onFinding(tooDamaged);
  }
}

async function* findingsIn(snapshot: Db, options: CheckOptions): AsyncGenerator<Finding> {
  if (engineOf(snapshot) === "sqlite") yield* stoppedByDamage(checkPages(snapshot));
  yield* stoppedByDamage(checkContent(recordOver(snapshot, options.places), options));
}

async function* checkContent(record: OpenRecord, options: CheckOptions): AsyncGenerator<Finding> {
  const { signal, onEntries, onPeople, onPhotos } = options;
  const { db } = record;
  await refuseOlderForm(db);
  const clinicIds = await record.store.clinicIds();
  for (const clinicId of clinicIds) {
    yield* checkEntries(db, clinicId, { signal, onProgress: onEntries });
    yield* checkLists(db, clinicId, { signal, onProgress: onPeople });
  }
  // A record that was never given keys has nothing that is sealed with them.
  if ((await readMark(db, "keyRecipient")) === null) return;
  try {
    await record.keys();
  } catch (error) {
    if (!(error instanceof KeyFault)) throw error;
    yield {
      part: "keys",
      id: null,
      problem: `${error.message} Photographs and audit trail were not checked.`,
    };
    return;
  }
  for (const clinicId of clinicIds) {
    yield* checkPhotos(record, clinicId, { signal, onProgress: onPhotos });
    const audit = await record.audit.verify(clinicId, { signal });
    if (!audit.ok) yield { part: "audit", id: clinicId, problem: audit.sentence };
  }
}

/** A check brings nothing up to date, and knows the tables of its own version alone. */
async function refuseOlderForm(db: Db): Promise<void> {
  const done = await migrationsOf(db);
  if (migrationNames.every((name) => done.includes(name))) return;
  throw new CarryFault(
    "olderForm",
    "The record has the form of an older version of Roundel. Open it once with this one (roundel keys status does), then check it.",
  );
}

/** Pages that cannot be read stop whoever meets them: the check says so instead of failing. */
async function* stoppedByDamage(findings: AsyncGenerator<Finding>): AsyncGenerator<Finding> {
  try {
    yield* findings;
  } catch (error) {
    if (!isDamage(error)) throw error;
    yield tooDamaged;
  }
}

const tooDamaged: Finding = {
  part: "file",
  id: null,
  problem: "The file is damaged so badly that the check could not go on from here.",
};

function isDamage(error: unknown): boolean {
  const code = (error as { code?: unknown } | null)?.code;
  return typeof code === "string" && /^SQLITE_(CORRUPT|NOTADB|IOERR)/.test(code);
}
