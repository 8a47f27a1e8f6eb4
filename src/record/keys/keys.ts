import { createHash } from "node:crypto";
import { stat } from "node:fs/promises";
import { identityToRecipient } from "age-encryption";
import { derivedKey } from "./derive.ts";
import { type KeyFile, type RecoveryKey, readKeyFile, writeKeyFile } from "./keyFile.ts";
import { sealFor, unsealWith } from "./seal.ts";

/**
 * The keys of one record, as its key file holds them. Follows the file: where another process rotated the keys, the
 * next seal is already for the new one.
 */
export class Keys {
  readonly file: string;
  private held: KeyFile;
  private stamp: string | null;
  private readonly borrowed: readonly string[];
  /** Whom everything is sealed for: the working key and, once there is one, the recovery key. */
  recipients: readonly string[];

  private constructor(
    file: string,
    held: KeyFile,
    { recipients, stamp, borrowed }: { recipients: string[]; stamp: string | null; borrowed: string[] },
  ) {
    this.file = file;
    this.held = held;
    this.recipients = recipients;
    this.stamp = stamp;
    this.borrowed = borrowed;
  }

  /** @param borrowed secret keys that open as well and are kept nowhere: a recovery key that was typed in */
  static async of(file: string, held: KeyFile, borrowed: string[] = []): Promise<Keys> {
    return new Keys(file, held, {
      recipients: await recipientsOf(held),
      stamp: await stampOf(file),
      borrowed,
    });
  }

  get recordId(): string {
    return this.held.recordId;
  }

  get recovery(): RecoveryKey | null {
    return this.held.recovery;
  }

  get working(): { recipient: string; madeAt: string } {
    return { recipient: this.recipients[0]!, madeAt: this.held.working.madeAt };
  }

  get retiredCount(): number {
    return this.held.retired.length;
  }

  /** The key under which the lines of the audit trail are chained; the same after every rotation. */
  auditKey(): Uint8Array {
    return derivedKey(this.held.secret, this.recordId, "audit");
  }

  /** What the record keeps of the secret behind {@link auditKey}, sealed like everything else. */
  async sealedSecret(): Promise<Uint8Array> {
    return this.seal(this.held.secret);
  }

  async seal(bytes: Uint8Array): Promise<Uint8Array> {
    await this.follow();
    return sealFor(this.recipients, bytes);
  }

  /** @throws {KeyFault} `wrongKey` or `damaged` */
  async unseal(sealed: Uint8Array): Promise<Uint8Array> {
    await this.follow();
    return unsealWith(this.identities(), sealed);
  }

  /** Names the present recipients in a row that is sealed for them, so that a rotation finds the rows still to do. */
  sealedFor(): string {
    return createHash("sha256").update(this.recipients.join(" ")).digest("hex").slice(0, 16);
  }

  /** Every secret key, the working one first: older backups open with the retired ones. */
  identities(): string[] {
    const own = [this.held.working, ...this.held.retired].map(({ identity }) => identity);
    return [...own, ...this.borrowed];
  }

  /** Reads the file anew where it changed. A file that was taken away after the start leaves the keys as they are. */
  async follow(): Promise<void> {
    const stamp = await stampOf(this.file);
    if (stamp === null || stamp === this.stamp) return;
    const held = await readKeyFile(this.file);
    if (held && held.recordId === this.recordId) await this.take(held, stamp);
  }

  /** Changes what the key file holds, on disk first. */
  async change(change: (held: KeyFile) => KeyFile): Promise<void> {
    await this.follow();
    const held = change(this.held);
    await writeKeyFile(this.file, held);
    await this.take(held, await stampOf(this.file));
  }

  private async take(held: KeyFile, stamp: string | null): Promise<void> {
    this.recipients = await recipientsOf(held);
    this.held = held;
    this.stamp = stamp;
  }

  /** Keys never reach a log, whatever prints this object. */
  toJSON(): object {
    return { file: this.file, recordId: this.recordId };
  }

  [Symbol.for("nodejs.util.inspect.custom")](): object {
    return this.toJSON();
  }
}

async function recipientsOf({ working, recovery }: KeyFile): Promise<string[]> {
  const own = await identityToRecipient(working.identity);
  return recovery ? [own, recovery.recipient] : [own];
}

async function stampOf(file: string): Promise<string | null> {
  const found = await stat(file, { bigint: true }).catch(() => null);
  return found && `${found.ino} ${found.mtimeNs} ${found.size}`;
}
