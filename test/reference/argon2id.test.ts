import { argon2id } from "@noble/hashes/argon2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { describe, expect, it } from "vitest";
import { argon2idParameters, hashPassword } from "../../src/record/accounts/index.ts";

/**
 * Passwords are hashed by a native library that takes no associated data, so that RFC 9106's own vector cannot be put
 * to it. A second implementation is held to the vector, and the native library to the second implementation.
 */
describe("argon2id", () => {
  it("of the second implementation gives the tag of RFC 9106 section 5.3 (quoted from memory)", () => {
    const filled = (length: number, byte: number) => new Uint8Array(length).fill(byte);
    const tag = argon2id(filled(32, 1), filled(16, 2), {
      m: 32,
      t: 3,
      p: 4,
      dkLen: 32,
      version: 0x13,
      key: filled(8, 3),
      personalization: filled(12, 4),
    });
    expect(bytesToHex(tag)).toBe("0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659");
  });

  it("as passwords are hashed is what the second implementation gives", async () => {
    const password = "a quiet blue gate";
    const [, , , parameters, salt, tag] = (await hashPassword(password)).split("$");
    expect(parameters).toBe("m=65536,t=3,p=4");
    const again = argon2id(new TextEncoder().encode(password), Buffer.from(salt!, "base64"), {
      m: 65_536,
      t: 3,
      p: 4,
      dkLen: 32,
    });
    expect(Buffer.from(again).toString("base64").replace(/=+$/, "")).toBe(tag);
  }, 60_000);

  it("has the parameters of RFC 9106 section 4, second recommended option (quoted from memory)", () => {
    expect(argon2idParameters).toEqual({
      memoryKib: 64 * 1024,
      passes: 3,
      lanes: 4,
      saltBytes: 128 / 8,
      tagBytes: 256 / 8,
    });
  });
});
