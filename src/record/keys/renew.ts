import { generateX25519Identity, identityToRecipient } from "age-encryption";
import type { Kysely } from "kysely";
import type { RecordTables } from "../store/schema.ts";
import { KeyFault } from "./fault.ts";
import type { Keys } from "./keys.ts";
import { isUnfinished, keepInForce, timeOf } from "./open.ts";

/** Seals anew whatever in the record is sealed for other recipients than the present ones. */
export type Reseal = () => Promise<Resealed>;

export interface Resealed {
  done: number;
  /** Could not be opened, and were left as they are. */
  failed: number;
}

interface Renewal {
  db: Kysely<RecordTables>;
  keys: Keys;
  reseal: Reseal;
  nowMs?: number;
}

/**
 * Puts a new working key in force. The key file holds the new key before anything is sealed for it, and the old one
 * stays in it, so that nothing is out of reach at any moment. A change of keys that was interrupted is finished instead.
 * @returns what was sealed anew, and whether this finished an earlier change
 */
export async function rotateKeys(renewal: Renewal): Promise<Resealed & { wasUnfinished: boolean }> {
  const { db, keys, nowMs } = renewal;
  const wasUnfinished = await isUnfinished(db, keys);
  if (!wasUnfinished) {
    const madeAt = timeOf(nowMs);
    const identity = await generateX25519Identity();
    await keys.change((held) => ({
      ...held,
      working: { identity, madeAt },
      retired: [{ ...held.working, retiredAt: madeAt }, ...held.retired],
    }));
  }
  return { ...(await finish(renewal)), wasUnfinished };
}

/** Makes a recovery key. It is not in force, and lies nowhere but in what this returns. */
export async function newRecoveryKey(): Promise<{ identity: string; recipient: string }> {
  const identity = await generateX25519Identity();
  return { identity, recipient: await identityToRecipient(identity) };
}

/**
 * Puts a recovery key in force, once it was shown: from now on everything is sealed for it as well.
 * @throws {KeyFault} when there is one and it is not to be replaced
 */
export async function enforceRecoveryKey(
  { recipient, replace = false }: { recipient: string; replace?: boolean },
  renewal: Renewal,
): Promise<Resealed> {
  const { keys, nowMs } = renewal;
  refuseSecondRecoveryKey(keys, replace);
  await keys.change((held) => ({
    ...held,
    recovery: { recipient, madeAt: timeOf(nowMs), provedAt: null },
  }));
  return finish(renewal);
}

export function refuseSecondRecoveryKey({ recovery }: Keys, replace: boolean): void {
  if (!recovery || replace) return;
  throw new KeyFault(
    "recoveryKeyExists",
    `This record has a recovery key, made on ${recovery.madeAt.slice(0, 10)}. It was shown then and is kept nowhere. If its paper is lost, make another with --replace; backups made before that open with the old paper or the key file alone.`,
  );
}

/** Notes that the paper opened a backup today. */
export async function noteProof(keys: Keys, nowMs?: number): Promise<void> {
  await keys.change((held) => ({
    ...held,
    recovery: held.recovery && { ...held.recovery, provedAt: timeOf(nowMs) },
  }));
}

/** @throws {KeyFault} when the key is not the one whose paper this record waits for */
export async function refuseOtherRecoveryKey(keys: Keys, identity: string): Promise<void> {
  if (!keys.recovery) {
    throw new KeyFault(
      "noRecoveryKey",
      "This record has no recovery key yet. Make one with roundel keys recovery.",
    );
  }
  if ((await identityToRecipient(identity)) === keys.recovery.recipient) return;
  throw new KeyFault("notTheRecoveryKey", "This is a key, but not the recovery key of this record.");
}

/** Brings everything that is sealed to the present recipients; what was done before it stopped stays done. */
async function finish({ db, keys, reseal }: Renewal): Promise<Resealed> {
  const resealed = await reseal();
  await keepInForce(db, keys);
  return resealed;
}
