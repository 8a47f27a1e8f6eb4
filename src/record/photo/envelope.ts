import { createCipheriv, createDecipheriv, randomBytes } from "node:crypto";
import { KeyFault } from "../keys/index.ts";

/** Whose photograph it is. Stands in the seal, so that a row moved to somebody else does not open. */
export interface PhotoOwner {
  clinicId: string;
  personId: string;
  photoId: string;
}

export type PhotoPart = "picture" | "thumbnail";

const algorithm = "aes-256-gcm";
const nonceBytes = 12;
const tagBytes = 16;

export function newPhotoKey(): Uint8Array {
  return randomBytes(32);
}

/**
 * Seals one part of a photograph under the photograph's own key: a random nonce, the sealed bytes, the tag.
 * @source NIST SP 800-38D (GCM, nonces of 96 bits)
 */
export function sealPart(key: Uint8Array, owner: PhotoOwner, part: PhotoPart, bytes: Uint8Array): Uint8Array {
  const nonce = randomBytes(nonceBytes);
  const cipher = createCipheriv(algorithm, key, nonce);
  cipher.setAAD(boundTo(owner, part));
  return Buffer.concat([nonce, cipher.update(bytes), cipher.final(), cipher.getAuthTag()]);
}

/** @throws {KeyFault} `damaged` when a bit of it changed, or it is another's */
export function openPart(
  key: Uint8Array,
  owner: PhotoOwner,
  part: PhotoPart,
  sealed: Uint8Array,
): Uint8Array {
  try {
    const nonce = sealed.subarray(0, nonceBytes);
    const end = sealed.length - tagBytes;
    const decipher = createDecipheriv(algorithm, key, nonce, { authTagLength: tagBytes });
    decipher.setAAD(boundTo(owner, part));
    decipher.setAuthTag(sealed.subarray(end));
    return new Uint8Array(
      Buffer.concat([decipher.update(sealed.subarray(nonceBytes, end)), decipher.final()]),
    );
  } catch {
    throw new KeyFault(
      "damaged",
      `The photograph ${owner.photoId} is damaged, or was put in another's place.`,
    );
  }
}

function boundTo({ clinicId, personId, photoId }: PhotoOwner, part: PhotoPart): Uint8Array {
  return Buffer.from(JSON.stringify(["roundel photo 1", clinicId, personId, photoId, part]));
}
