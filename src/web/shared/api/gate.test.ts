import { describe, expect, it } from "vitest";
import { gate } from "./gate.ts";

describe("requests that wait for somebody to sign in or confirm", () => {
  it("share one answer to one question", async () => {
    const [first, second] = [gate.passed("confirm"), gate.passed("confirm")];
    gate.settle("confirm", true);
    expect(await Promise.all([first, second])).toEqual([true, true]);
  });

  it("are told where nobody did, and the next request asks anew", async () => {
    const refused = gate.passed("signIn");
    gate.settle("signIn", false);
    expect(await refused).toBe(false);
    const asked = gate.passed("signIn");
    gate.settle("signIn", true);
    expect(await asked).toBe(true);
  });

  it("wait for their own question and for no other", async () => {
    const confirmed = gate.passed("confirm");
    gate.settle("signIn", true);
    gate.settle("confirm", false);
    expect(await confirmed).toBe(false);
  });
});
