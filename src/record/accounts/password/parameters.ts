/**
 * How passwords are hashed.
 * @source RFC 9106 section 4, the second recommended option: argon2id, 3 passes, 4 lanes, 64 MiB, salt of 128 bits, tag
 * of 256 bits
 */
export const argon2idParameters = {
  memoryKib: 65_536,
  passes: 3,
  lanes: 4,
  tagBytes: 32,
  saltBytes: 16,
} as const;
