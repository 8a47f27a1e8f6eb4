import { Buffer } from "node:buffer";
import { randomBytes, randomUUID } from "node:crypto";
import { generateX25519Identity, identityToRecipient } from "age-encryption";
import type { Kysely } from "kysely";
import type { RecordTables } from "../store/schema.ts";
import { KeyFault } from "./fault.ts";
import { type KeyFile, readKeyFile, writeKeyFile } from "./keyFile.ts";
import { Keys } from "./keys.ts";
import { firstMark, readMark, writeMark } from "./marks.ts";
import { keyFilePlace, refuseInside } from "./place.ts";
import { unsealWith } from "./seal.ts";

export interface KeyOptions {
  /** Another place than `ROUNDEL_KEY_FILE` or the account's own settings. */
  keyFile?: string;
  /** The data folder, in which the key file may not lie. */
  dataDir?: string;
  nowMs?: number;
}

/**
 * Opens the keys of a record; at its first start makes them.
 * @throws {KeyFault} when the key file is missing, readable by others, damaged, or not this record's
 */
export async function openKeys(db: Kysely<RecordTables>, options: KeyOptions = {}): Promise<Keys> {
  const recordId = await firstMark(db, "recordId", randomUUID());
  const file = keyFilePlace(recordId, options.keyFile);
  if (options.dataDir !== undefined) await refuseInside(options.dataDir, file);
  const inForce = await readMark(db, "keyRecipient");
  const held = await heldOrMade(file, recordId, { isFirst: inForce === null, nowMs: options.nowMs });
  refuseAnother(held, recordId, file);
  const recipient = await identityToRecipient(held.working.identity);
  await refuseOutdated(held, await firstMark(db, "keyRecipient", recipient), file);
  const keys = await Keys.of(file, held);
  if ((await readMark(db, "keySecret")) === null) await keepSecret(db, keys);
  return keys;
}

/**
 * Opens the keys of a record with its recovery key. Where its key file was lost, another is made: a new working key,
 * and the secret that the record keeps sealed for the recovery key. Bring the record to it with {@link keepInForce}.
 * @throws {KeyFault}
 */
export async function recoverKeys(
  db: Kysely<RecordTables>,
  recoveryKey: string,
  { keyFile, dataDir, nowMs }: KeyOptions = {},
): Promise<Keys> {
  const [recordId, sealed] = [await readMark(db, "recordId"), await readMark(db, "keySecret")];
  if (recordId === null || sealed === null)
    throw new KeyFault("damaged", "The record does not say which keys it has.");
  const file = keyFilePlace(recordId, keyFile);
  if (dataDir !== undefined) await refuseInside(dataDir, file);
  const secret = await unsealWith([recoveryKey], Buffer.from(sealed.split(" ")[1] ?? "", "base64"));
  const held = await readKeyFile(file);
  if (held) {
    refuseAnother(held, recordId, file);
    if (!Buffer.from(held.secret).equals(secret)) throw ofAnother(held, recordId, file);
    return Keys.of(file, held, [recoveryKey]);
  }
  const madeAt = timeOf(nowMs);
  const made: KeyFile = {
    recordId,
    secret,
    recovery: { recipient: await identityToRecipient(recoveryKey), madeAt, provedAt: madeAt },
    working: { identity: await generateX25519Identity(), madeAt },
    retired: [],
  };
  await writeKeyFile(file, made, { onlyNew: true });
  return Keys.of(file, made, [recoveryKey]);
}

/** Says which working key is in force, and seals the record's secret for the present recipients. */
export async function keepInForce(db: Kysely<RecordTables>, keys: Keys): Promise<void> {
  await writeMark(db, "keyRecipient", keys.working.recipient);
  await keepSecret(db, keys);
}

/** Whether the record has yet to be brought to the keys of the file: a change of keys was interrupted. */
export async function isUnfinished(db: Kysely<RecordTables>, keys: Keys): Promise<boolean> {
  await keys.follow();
  const [inForce, secret] = [await readMark(db, "keyRecipient"), await readMark(db, "keySecret")];
  return inForce !== keys.working.recipient || !secret?.startsWith(`${keys.sealedFor()} `);
}

async function keepSecret(db: Kysely<RecordTables>, keys: Keys): Promise<void> {
  const sealed = Buffer.from(await keys.sealedSecret()).toString("base64");
  await writeMark(db, "keySecret", `${keys.sealedFor()} ${sealed}`);
}

async function heldOrMade(
  file: string,
  recordId: string,
  { isFirst, nowMs }: { isFirst: boolean; nowMs: number | undefined },
): Promise<KeyFile> {
  const held = await readKeyFile(file);
  if (held) return held;
  if (!isFirst) {
    throw new KeyFault(
      "keyFileMissing",
      `The key file of this record is not at ${file}. Put its copy there, or name its place with --key-file or ROUNDEL_KEY_FILE. If every copy is lost: roundel restore with a backup and the recovery key.`,
    );
  }
  const made: KeyFile = {
    recordId,
    secret: randomBytes(32),
    recovery: null,
    working: { identity: await generateX25519Identity(), madeAt: timeOf(nowMs) },
    retired: [],
  };
  try {
    await writeKeyFile(file, made, { onlyNew: true });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw cannotMake(file, error);
  }
  // Another process may have been first; what is on disk counts.
  return (await readKeyFile(file)) ?? made;
}

function cannotMake(file: string, error: unknown): Error {
  const { code } = error as NodeJS.ErrnoException;
  if (code === undefined) return error as Error;
  return new KeyFault(
    "keyFileMissing",
    `The key file ${file} cannot be made (${code}). Name another place with --key-file or ROUNDEL_KEY_FILE.`,
  );
}

function refuseAnother(held: KeyFile, recordId: string, file: string): void {
  if (held.recordId !== recordId) throw ofAnother(held, recordId, file);
}

function ofAnother(held: KeyFile, recordId: string, file: string): KeyFault {
  return new KeyFault(
    "keyFileOfAnother",
    `The key file ${file} belongs to another record (${held.recordId}); this one is ${recordId}.`,
  );
}

async function refuseOutdated(held: KeyFile, inForce: string, file: string): Promise<void> {
  for (const { identity } of [held.working, ...held.retired]) {
    if ((await identityToRecipient(identity)) === inForce) return;
  }
  throw new KeyFault(
    "keyFileOutdated",
    `The key file ${file} does not hold the key in force: keys were rotated after this copy of it was made. Put the latest copy there.`,
  );
}

export function timeOf(nowMs: number = Date.now()): string {
  return new Date(nowMs).toISOString();
}
