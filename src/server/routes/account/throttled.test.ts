import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicEntry, now } from "../../../../test/record/samples.ts";
import { type Asker, makeAccount, type TestBench, testBench } from "../../../../test/server/bench.ts";
import { type Account, hashPassword } from "../../../record/accounts/index.ts";

const password = "a quiet blue gate";
const passwordHash = await hashPassword(password);

let bench: TestBench;
let nowMs: number;
let ines: Account;
beforeEach(async () => {
  nowMs = now;
  bench = await testBench([clinicEntry()], { now: () => nowMs });
  ines = await makeAccount(bench.record, { role: "nurse", passwordHash });
});
afterEach(() => bench.close());

const signIn = (asker: Asker, given = password, name = ines.signInName) =>
  asker.post("/api/sign-in", { signInName: name, password: given });

/** Guesses without a pause until the bench says to wait. */
async function guessUntilTold(asker = bench.anonymous()): Promise<number> {
  for (;;) {
    const { json } = await signIn(asker, "one more guess");
    if (json.error.code === "waitBeforeSignIn") return json.error.waitSeconds;
    expect(json.error.code).toBe("signInFailed");
  }
}

describe("guessing", () => {
  it("has to wait, longer each time, and knowing the password at last does not help before", async () => {
    const stranger = bench.anonymous();
    const first = await guessUntilTold(stranger);
    const early = await signIn(stranger);
    expect([early.status, early.json.error.code]).toEqual([429, "waitBeforeSignIn"]);
    expect(early.json.error.waitSeconds).toBeGreaterThan(0);
    nowMs += first * 1000;
    await signIn(stranger, "one more guess");
    expect((await signIn(stranger)).json.error.waitSeconds).toBeGreaterThan(first);
  });

  it("never bars the owner at a browser of her own", async () => {
    const own = bench.anonymous();
    await signIn(own);
    await guessUntilTold();
    expect((await signIn(bench.anonymous())).status).toBe(429);
    expect((await signIn(own)).status).toBe(200);
  });

  it("at a browser that is known bars that browser alone", async () => {
    const [desk, tablet] = [bench.anonymous(), bench.anonymous()];
    await signIn(desk);
    await signIn(tablet);
    await guessUntilTold(desk);
    expect((await signIn(desk)).status).toBe(429);
    expect((await signIn(tablet)).status).toBe(200);
  });

  it("never bars the way back in that the lead gives", async () => {
    await guessUntilTold();
    const { link } = (await bench.post(`/api/accounts/${ines.accountId}/recovery`)).json;
    const fresh = bench.anonymous();
    const token = link.split("#")[1];
    expect((await fresh.post("/api/recover", { token, password: "an orange tall door" })).status).toBe(200);
    expect((await signIn(fresh, "an orange tall door")).status).toBe(200);
  });

  it("sent all at once is counted all the same", async () => {
    const stranger = bench.anonymous();
    const answers = await Promise.all(
      Array.from({ length: 12 }, (_, guess) => signIn(stranger, `one more guess ${guess}`)),
    );
    const codes = answers.map(({ json }) => json.error.code);
    expect(codes.filter((code) => code === "signInFailed").length).toBeLessThanOrEqual(4);
    expect(codes).toContain("waitBeforeSignIn");
  });

  it("of many names from one address is slowed down too", async () => {
    const stranger = bench.anonymous();
    let told = 0;
    for (let name = 0; name < 25; name += 1) {
      const { json } = await signIn(stranger, "a common password", `colleague ${name}`);
      if (json.error.code === "waitBeforeSignIn") told += 1;
    }
    expect(told).toBeGreaterThan(0);
  });

  it("of the password at an open session slows that session's confirming and nothing else", async () => {
    const own = bench.anonymous();
    await signIn(own);
    let status = 401;
    while (status === 401) status = (await own.post("/api/confirm", { password: "a guess" })).status;
    expect(status).toBe(429);
    expect((await own.get("/api/people")).status).toBe(200);
    expect((await signIn(own)).status).toBe(200);
  });
});

describe("requests where secrets are tried", () => {
  it("are far fewer a minute than others", async () => {
    const stranger = bench.anonymous();
    const look = () => stranger.post("/api/join/look", { token: "a".repeat(43) });
    let count = 1;
    while ((await look()).status === 410) count += 1;
    expect(count).toBe(31);
    expect((await look()).json.error.code).toBe("tooManyRequests");
    expect((await stranger.get("/api/session")).status).toBe(200);
  });
});
