import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicEntry, now } from "../../../../test/record/samples.ts";
import {
  type Asker,
  makeAccount,
  signInDirectly,
  type TestBench,
  testBench,
} from "../../../../test/server/bench.ts";
import { type Account, hashPassword, sessionLimits } from "../../../record/accounts/index.ts";

const minute = 60_000;
const password = "a quiet blue gate";
const passwordHash = await hashPassword(password);

let bench: TestBench;
let nowMs: number;
let ines: Account;
let browser: Asker;
beforeEach(async () => {
  nowMs = now;
  bench = await testBench([clinicEntry()], { now: () => nowMs });
  ines = await makeAccount(bench.record, { role: "nurse", passwordHash });
  browser = bench.anonymous();
});
afterEach(() => bench.close());

const signIn = (asker = browser, given = password, name = ines.signInName) =>
  asker.post("/api/sign-in", { signInName: name, password: given });
const isSignedIn = async (asker = browser) => (await asker.get("/api/session")).json.signedIn;

describe("signing in", () => {
  it("takes the name in any case and width, and the password in any composition", async () => {
    const { status, json } = await signIn(browser, password, `  ${ines.signInName.toUpperCase()} `);
    expect([status, json.account.accountId]).toEqual([200, ines.accountId]);
    expect(await isSignedIn()).toBe(true);
  });

  it.each([
    ["a wrong password", "a quiet blue gate!"],
    ["no password", ""],
    ["a password of other letters", "A quiet blue gate"],
  ])("with %s fails in the same words as with a name that nobody has", async (_what, given) => {
    const wrong = await signIn(browser, given);
    const nobody = await signIn(browser, given, "nobody");
    expect([wrong.status, wrong.json.error.code]).toEqual([401, "signInFailed"]);
    expect(nobody.json).toEqual(wrong.json);
    expect(await isSignedIn()).toBe(false);
  });

  it("to a closed account fails like any other, at once and for every session", async () => {
    await signIn();
    await bench.accounts.close(ines.clinicId, ines.accountId, nowMs);
    expect(await isSignedIn()).toBe(false);
    expect((await signIn(bench.anonymous())).json.error.code).toBe("signInFailed");
  });

  it.each(["person", "helper"] as const)("of a %s is for the home log alone", async (role) => {
    const account = await makeAccount(bench.record, { role, personId: ines.accountId, passwordHash });
    expect((await signIn(browser, password, account.signInName)).json.error.code).toBe("signInFailed");
    // Even with a session of the bench's own kind, nothing opens.
    const { secret } = await bench.accounts.sessions.start(account, { listener: "bench", device: "", nowMs });
    const forged = bench.anonymous();
    forged.cookies.set("roundel", secret);
    for (const url of ["/api/people", "/api/today", "/api/account"]) {
      expect((await forged.get(url)).json.error.code).toBe("roleForbids");
    }
  });

  it("gives another secret each time, so that one planted before is worth nothing after", async () => {
    const planted = bench.anonymous();
    await signInDirectly(bench.record, ines, planted, nowMs);
    browser.cookies.set("roundel", planted.cookies.get("roundel")!);
    await signIn();
    expect(browser.cookies.get("roundel")).not.toBe(planted.cookies.get("roundel"));
    expect(await isSignedIn(planted)).toBe(false);
    expect(await isSignedIn()).toBe(true);
  });

  it("sets cookies that no script reads and no other site sends", async () => {
    const { headers } = await signIn();
    const cookies = headers["set-cookie"] as unknown as string[];
    expect(cookies).toHaveLength(2);
    for (const cookie of cookies) {
      expect(cookie).toMatch(/^roundel(-device)?=[\w-]{43}; .*Path=\/.*HttpOnly.*SameSite=Strict/);
      expect(cookie).not.toMatch(/Domain|Secure/);
    }
  });

  it("makes a hash anew that was made with other parameters", async () => {
    const { hash } = await import("@node-rs/argon2");
    const weak = await hash(password, { algorithm: 2, memoryCost: 8192, timeCost: 1, parallelism: 1 });
    await bench.accounts.setPassword(ines, weak);
    expect((await signIn()).status).toBe(200);
    expect(await bench.accounts.passwordHash(ines)).toContain("m=65536,t=3,p=4");
    expect((await signIn()).status).toBe(200);
  });
});

describe("a session", () => {
  beforeEach(() => signIn());

  it("ends after half an hour without a request, and not while there are some", async () => {
    for (let minutes = 0; minutes < 120; minutes += 29) {
      nowMs += 29 * minute;
      expect(await isSignedIn()).toBe(true);
    }
    nowMs += sessionLimits.idleMs;
    expect(await isSignedIn()).toBe(false);
  });

  it("ends after twelve hours whatever happens", async () => {
    for (; nowMs < now + sessionLimits.absoluteMs - 20 * minute; nowMs += 20 * minute) {
      expect(await isSignedIn()).toBe(true);
    }
    nowMs = now + sessionLimits.absoluteMs;
    expect(await isSignedIn()).toBe(false);
  });

  it("exchanges its secret every hour; the one before holds for half a minute more", async () => {
    const before = browser.cookies.get("roundel")!;
    for (; nowMs < now + 60 * minute; nowMs += 20 * minute) await isSignedIn();
    const late = bench.anonymous();
    late.cookies.set("roundel", before);
    expect(await isSignedIn()).toBe(true);
    expect(browser.cookies.get("roundel")).not.toBe(before);
    expect(await isSignedIn(late)).toBe(true);
    expect(late.cookies.get("roundel")).toBe(before);
    nowMs += sessionLimits.graceMs;
    expect(await isSignedIn(late)).toBe(false);
    expect(await isSignedIn()).toBe(true);
  });

  it("of which two requests come at the hour gets one new secret", async () => {
    nowMs += 20 * minute;
    await isSignedIn();
    nowMs += 20 * minute;
    await isSignedIn();
    nowMs += 20 * minute;
    const twins = [browser.cookies, browser.cookies].map((cookies) => {
      const twin = bench.anonymous();
      twin.cookies.set("roundel", cookies.get("roundel")!);
      return twin;
    });
    const answers = await Promise.all(twins.map((twin) => twin.get("/api/session")));
    expect(answers.map(({ json }) => json.signedIn)).toEqual([true, true]);
    expect(answers.filter(({ headers }) => headers["set-cookie"])).toHaveLength(1);
  });

  it("ends when it is signed out, and is gone for whoever copied it", async () => {
    const copy = bench.anonymous();
    copy.cookies.set("roundel", browser.cookies.get("roundel")!);
    expect((await browser.post("/api/sign-out")).status).toBe(204);
    expect(browser.cookies.has("roundel")).toBe(false);
    expect(await isSignedIn(copy)).toBe(false);
  });

  it("ends everywhere when that is asked for, and nobody else's does", async () => {
    const elsewhere = bench.anonymous();
    await signIn(elsewhere);
    const colleague = await bench.as("nurse");
    await browser.post("/api/sign-out-everywhere");
    expect([await isSignedIn(), await isSignedIn(elsewhere), await isSignedIn(colleague)]).toEqual([
      false,
      false,
      true,
    ]);
  });

  it.each([
    ["nothing", ""],
    ["a letter", "é"],
    ["the right length", "a".repeat(43)],
    ["five thousand letters", "a".repeat(5000)],
  ])("under a secret of %s is nobody's", async (_what, secret) => {
    browser.cookies.set("roundel", encodeURIComponent(secret));
    expect(await isSignedIn()).toBe(false);
    expect((await browser.get("/api/people")).json.error.code).toBe("signInFirst");
  });
});

describe("what needs a recent sign-in", () => {
  const exports = (asker: Asker = bench) => asker.get("/api/export.jsonl");

  it("asks for it after ten minutes, and confirming gives ten more and another secret", async () => {
    const lead = await makeAccount(bench.record, { role: "lead", passwordHash });
    await signIn(browser, password, lead.signInName);
    expect((await exports(browser)).status).toBe(200);
    nowMs += sessionLimits.strongMs;
    const stale = await exports(browser);
    expect([stale.status, stale.json.error.code]).toEqual([401, "confirmItIsYou"]);
    const secret = browser.cookies.get("roundel");
    const wrong = await browser.post("/api/confirm", { password: "not this one" });
    expect([wrong.status, wrong.json.error.code]).toEqual([401, "signInFailed"]);
    expect((await exports(browser)).status).toBe(401);
    const { json } = await browser.post("/api/confirm", { password });
    expect(json).toEqual({ strongUntilMs: nowMs + sessionLimits.strongMs });
    expect(browser.cookies.get("roundel")).not.toBe(secret);
    expect((await exports(browser)).status).toBe(200);
  });
});
