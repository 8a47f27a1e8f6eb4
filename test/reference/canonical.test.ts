/**
 * Canonical JSON, over which audit lines are hashed, against the examples of its standard.
 * @source RFC 8785 (June 2020), sections 3.2.2 to 3.2.4 and Appendix B, Table 1
 */
import canonicalize from "canonicalize";
import { describe, expect, it } from "vitest";
import { lineHash } from "../../src/record/audit/line.ts";

describe("canonical JSON", () => {
  it("writes the standard's object as the standard does (3.2.2, 3.2.3), byte for byte (3.2.4)", () => {
    const input = String.raw`
      {
        "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
        "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
        "literals": [null, true, false]
      }`;
    const bytes = Buffer.from(canonicalize(JSON.parse(input))!, "utf8");
    expect(bytes.toString("utf8")).toBe(
      String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
    );
    expect(bytes.toString("hex")).toBe(
      "7b226c69746572616c73223a5b6e756c6c2c747275652c66616c73655d2c226e756d62657273223a" +
        "5b3333333333333333332e333333333333332c31652b33302c342e352c302e3030322c31652d3237" +
        "5d2c22737472696e67223a22e282ac245c75303030665c6e4127425c225c5c5c5c5c222f227d",
    );
  });

  it("sorts names by UTF-16 code units (3.2.3)", () => {
    const input = String.raw`
      {
        "\u20ac": "Euro Sign", "\r": "Carriage Return", "\ufb33": "Hebrew Letter Dalet With Dagesh", "1": "One",
        "\ud83d\ude00": "Emoji: Grinning Face", "\u0080": "Control",
        "\u00f6": "Latin Small Letter O With Diaeresis"
      }`;
    const names = [...canonicalize(JSON.parse(input))!.matchAll(/:"([^"]+)"/g)].map(([, value]) => value);
    expect(names).toEqual([
      "Carriage Return",
      "One",
      "Control",
      "Latin Small Letter O With Diaeresis",
      "Euro Sign",
      "Emoji: Grinning Face",
      "Hebrew Letter Dalet With Dagesh",
    ]);
  });

  it.each([
    ["0000000000000000", "0"],
    ["8000000000000000", "0"],
    ["0000000000000001", "5e-324"],
    ["8000000000000001", "-5e-324"],
    ["7fefffffffffffff", "1.7976931348623157e+308"],
    ["ffefffffffffffff", "-1.7976931348623157e+308"],
    ["4340000000000000", "9007199254740992"],
    ["c340000000000000", "-9007199254740992"],
    ["4430000000000000", "295147905179352830000"],
    ["44b52d02c7e14af5", "9.999999999999997e+22"],
    ["44b52d02c7e14af6", "1e+23"],
    ["44b52d02c7e14af7", "1.0000000000000001e+23"],
    ["444b1ae4d6e2ef4e", "999999999999999700000"],
    ["444b1ae4d6e2ef4f", "999999999999999900000"],
    ["444b1ae4d6e2ef50", "1e+21"],
    ["3eb0c6f7a0b5ed8c", "9.999999999999997e-7"],
    ["3eb0c6f7a0b5ed8d", "0.000001"],
    ["41b3de4355555553", "333333333.3333332"],
    ["41b3de4355555554", "333333333.33333325"],
    ["41b3de4355555555", "333333333.3333333"],
    ["41b3de4355555556", "333333333.3333334"],
    ["41b3de4355555557", "333333333.33333343"],
    ["becbf647612f3696", "-0.0000033333333333333333"],
    ["43143ff3c1cb0959", "1424953923781206.2"],
  ])("writes the number with the bits %s as %s (Appendix B)", (bits, text) => {
    expect(canonicalize(Buffer.from(bits, "hex").readDoubleBE())).toBe(text);
  });

  it("refuses what is no number and no text (3.2.2.2, Appendix B)", () => {
    for (const bits of ["7fffffffffffffff", "7ff0000000000000"]) {
      expect(() => canonicalize(Buffer.from(bits, "hex").readDoubleBE())).toThrow();
    }
    expect(() => canonicalize("\udead")).toThrow();
  });
});

describe("the hash of an audit line", () => {
  const line = {
    seq: 7,
    clinicId: "0b7c9a52-6a0e-4c9f-8d53-0f6f3a1c2d10",
    atMs: 1_795_600_800_000,
    accountId: null,
    sessionId: null,
    action: "signIn" as const,
    objects: [{ kind: "account" as const, id: "5d1f0a9e-3b7c-4f86-9a64-8e2b7c5d9f01" }],
    outcome: "refused" as const,
    prev: "0".repeat(64),
  };

  it("is what another language makes of it", () => {
    // Python 3.11: json.dumps(line, sort_keys=True, separators=(",", ":")), hashlib.sha256 and hmac under bytes(range(32))
    expect(lineHash(line)).toBe("b41301ef437635ba7f33935fec66f5e1f72a7355f2f5dad8fea26dc5ecbf5cec");
    expect(
      lineHash(
        line,
        Uint8Array.from({ length: 32 }, (_, index) => index),
      ),
    ).toBe("677e0d5cb205156dbc4daa7eb8d3702a8959ab72b1d4ab92e7c1cd11c7f5097c");
  });
});
