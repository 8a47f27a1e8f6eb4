import { Decrypter, Encrypter } from "age-encryption";
import { KeyFault } from "./fault.ts";

/** Seals bytes so that any one of the recipients opens them. @source age-encryption.org/v1 */
export async function sealFor(recipients: readonly string[], bytes: Uint8Array): Promise<Uint8Array> {
  return encrypterFor(recipients).encrypt(bytes);
}

/** @throws {KeyFault} `wrongKey` or `damaged` */
export async function unsealWith(identities: readonly string[], sealed: Uint8Array): Promise<Uint8Array> {
  return inWords(() => decrypterWith(identities).decrypt(sealed));
}

/** The same for what does not fit in memory. */
export async function sealStream(
  recipients: readonly string[],
  bytes: ReadableStream<Uint8Array>,
): Promise<ReadableStream<Uint8Array>> {
  return encrypterFor(recipients).encrypt(bytes);
}

/**
 * The first bytes come out before the last are checked: whoever reads must read to the end before believing any.
 * @throws {KeyFault} here for a wrong key; in the stream, a plain error, for damage further on
 */
export async function unsealStream(
  identities: readonly string[],
  sealed: ReadableStream<Uint8Array>,
): Promise<ReadableStream<Uint8Array>> {
  return inWords(() => decrypterWith(identities).decrypt(sealed));
}

function encrypterFor(recipients: readonly string[]): Encrypter {
  const encrypter = new Encrypter();
  for (const recipient of recipients) encrypter.addRecipient(recipient);
  return encrypter;
}

function decrypterWith(identities: readonly string[]): Decrypter {
  const decrypter = new Decrypter();
  for (const identity of identities) decrypter.addIdentity(identity);
  return decrypter;
}

/** The library tells its failures apart by their words alone. */
async function inWords<T>(open: () => Promise<T>): Promise<T> {
  try {
    return await open();
  } catch (error) {
    const none = error instanceof Error && error.message.includes("no identity matched");
    throw none
      ? new KeyFault("wrongKey", "It is sealed for another key.")
      : new KeyFault("damaged", "It is damaged, or was never sealed by Roundel.");
  }
}
