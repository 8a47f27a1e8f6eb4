import { hkdfSync } from "node:crypto";

export interface Derivation {
  hash: "sha256" | "sha1";
  secret: Uint8Array;
  salt: Uint8Array;
  info: Uint8Array;
  /** Bytes wanted. */
  length: number;
}

/** HMAC-based key derivation, extract then expand. @source RFC 5869 */
export function hkdf({ hash, secret, salt, info, length }: Derivation): Uint8Array {
  return new Uint8Array(hkdfSync(hash, secret, salt, info, length));
}

/** A key of 32 bytes for one purpose of one record: knowing it gives away neither the secret nor another purpose's key. */
export function derivedKey(secret: Uint8Array, recordId: string, purpose: string): Uint8Array {
  return hkdf({
    hash: "sha256",
    secret,
    salt: Buffer.from(recordId),
    info: Buffer.from(`roundel ${purpose} 1`),
    length: 32,
  });
}
