import { describe, expect, it } from "vitest";
import { hkdf } from "../../src/record/keys/derive.ts";

const hex = (text: string) => new Uint8Array(Buffer.from(text, "hex"));
const run = (first: number, last: number) =>
  Uint8Array.from({ length: last - first + 1 }, (_, at) => first + at);

/** Test cases 1 to 3 of the standard. @source RFC 5869, appendix A */
const cases = [
  {
    name: "A.1, SHA-256",
    hash: "sha256",
    secret: hex("0b".repeat(22)),
    salt: run(0x00, 0x0c),
    info: run(0xf0, 0xf9),
    length: 42,
    derived: "3cb25f25faacd57a90434f64d0362f2a2d2d0a90cf1a5a4c5db02d56ecc4c5bf34007208d5b887185865",
  },
  {
    name: "A.2, SHA-256, longer inputs and outputs",
    hash: "sha256",
    secret: run(0x00, 0x4f),
    salt: run(0x60, 0xaf),
    info: run(0xb0, 0xff),
    length: 82,
    derived:
      "b11e398dc80327a1c8e7f78c596a49344f012eda2d4efad8a050cc4c19afa97c59045a99cac7827271cb41c65e590e09da3275600c2f09b8367793a9aca3db71cc30c58179ec3e87c14c01d5c1f3434f1d87",
  },
  {
    name: "A.3, SHA-256, no salt and no info",
    hash: "sha256",
    secret: hex("0b".repeat(22)),
    salt: new Uint8Array(),
    info: new Uint8Array(),
    length: 42,
    derived: "8da4e775a563c18f715f802a063c5a31b8a11f5c5ee1879ec3454e5f3c738d2d9d201395faa4b61a96c8",
  },
] as const;

describe("keys that are derived from a secret", () => {
  it.each(cases)("are those of RFC 5869, $name", ({ derived, ...input }) => {
    expect(Buffer.from(hkdf(input)).toString("hex")).toBe(derived);
  });
});
