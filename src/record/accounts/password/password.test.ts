import { describe, expect, it } from "vitest";
import { AtMost } from "./atMost.ts";
import { hashPassword, isOutdated, isPassword, passwordFaults } from "./index.ts";

const own = ["ines", "Ines Marlow", "Harbour Street stoma clinic"];
const problem = (password: string) => passwordFaults(password, own)[0]?.problem ?? "taken";

describe("a new password", () => {
  it.each([
    "a quiet blue gate",
    "aquietbluegate",
    "żółta łódka pływa",
    "七色の虹が空に架かるのを見ました",
    "🦔🦔 in the hedge 🦔🦔",
    "Ines has a quiet gate",
    "            . ,;:-_ x1y2",
  ])("may be anything long enough: %s", (password) => {
    expect(problem(password)).toBe("taken");
  });

  it("is counted in characters, not in bytes, and as it is compared", () => {
    expect(problem("é".repeat(5))).toBe("is too short");
    expect(problem("żółta łódka")).toBe("is too short");
    expect(problem(`${"qu".repeat(128)}x`)).toBe("is too long");
  });

  it.each([
    "passwordpassword",
    "Password-2026",
    "password123456",
    "Pass word 1234",
    "letmeinletmein",
    "aaaaaaaaaaaa",
    "abababababab",
    "abcdefghijkl",
    "lkjihgfedcba",
    "123456789012",
    "qwertyuiopas",
    "correct horse battery staple",
  ])("that is guessed first is refused: %s", (password) => {
    expect(problem(password)).toBe("is one of the first to be guessed");
  });

  it.each(["Ines Marlow 26", "HarbourStreet1", "marlow-marlow-1", "inesinesines", "Marlow Harbour 26"])(
    "made of a name is refused: %s",
    (password) => {
      expect(problem(password)).toBe("is made of a name");
    },
  );

  it("is never sent back in the fault", () => {
    expect(JSON.stringify(passwordFaults("hunter-two", own))).not.toContain("hunter");
  });
});

describe("the hash", () => {
  it("is argon2id with RFC 9106's second recommended parameters, another each time", async () => {
    const [a, b] = await Promise.all([hashPassword("a quiet blue gate"), hashPassword("a quiet blue gate")]);
    expect(a).toMatch(/^\$argon2id\$v=19\$m=65536,t=3,p=4\$[\w+/]{22}\$[\w+/]{43}$/);
    expect(a).not.toBe(b);
    expect(isOutdated(a)).toBe(false);
    expect(isOutdated(a.replace("t=3", "t=2"))).toBe(true);
    expect(isOutdated(a.replace("m=65536", "m=19456"))).toBe(true);
  });

  it("knows its password in whatever composition it is typed, and no other", async () => {
    const kept = await hashPassword("caf\u00e9 am rathaus");
    expect(await isPassword(kept, "cafe\u0301 am rathaus")).toBe(true);
    expect(await isPassword(kept, "cafe am rathaus")).toBe(false);
    expect(await isPassword(kept, "")).toBe(false);
  });

  it("of nobody is no password's, and takes about as long to say so", async () => {
    const kept = await hashPassword("a quiet blue gate");
    const time = async (hash: string | null) => {
      const before = performance.now();
      expect(await isPassword(hash, "something else")).toBe(false);
      return performance.now() - before;
    };
    await time(null);
    const ratios = [];
    for (let tries = 0; tries < 3; tries += 1) ratios.push((await time(null)) / (await time(kept)));
    // A lookup without a hash would take less than a thousandth; the machine's own ups and downs stay far from that.
    expect(Math.max(...ratios)).toBeGreaterThan(0.3);
  });
});

describe("work at the same time", () => {
  it("is limited, keeps its order, and goes on after a failure", async () => {
    const two = new AtMost(2);
    const order: number[] = [];
    let running = 0;
    let most = 0;
    const work = (name: number) =>
      two.run(async () => {
        running += 1;
        most = Math.max(most, running);
        order.push(name);
        await new Promise((resolve) => setImmediate(resolve));
        running -= 1;
        if (name === 2) throw new Error("failed");
      });
    const done = await Promise.allSettled([1, 2, 3, 4, 5].map(work));
    expect(done.map(({ status }) => status)).toEqual([
      "fulfilled",
      "rejected",
      "fulfilled",
      "fulfilled",
      "fulfilled",
    ]);
    expect([most, order]).toEqual([2, [1, 2, 3, 4, 5]]);
  });
});
