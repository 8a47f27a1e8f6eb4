import { createHash, randomBytes } from "node:crypto";

const secretBytes = 32;

/** 256 random bits, as they stand in a cookie or a link. */
export function newSecret(): string {
  return randomBytes(secretBytes).toString("base64url");
}

/** What a table keeps of a secret: reading the table lets nobody in. */
export function hashOf(secret: string): string {
  return createHash("sha256").update(secret).digest("base64url");
}
