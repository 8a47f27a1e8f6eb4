import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicEntry, clinicId, now } from "../../../../test/record/samples.ts";
import { Authenticator } from "../../../../test/server/authenticator.ts";
import {
  type Asker,
  makeAccount,
  signInDirectly,
  type TestBench,
  testBench,
} from "../../../../test/server/bench.ts";
import { type Account, hashPassword, linkLimits, sessionLimits } from "../../../record/accounts/index.ts";

const password = "a quiet blue gate";
const passwordHash = await hashPassword(password);
const origin = "http://localhost";

let bench: TestBench;
let nowMs: number;
let ines: Account;
let browser: Asker;
let device: Authenticator;
beforeEach(async () => {
  nowMs = now;
  bench = await testBench([clinicEntry()], { now: () => nowMs });
  ines = await makeAccount(bench.record, { role: "nurse", passwordHash });
  browser = bench.anonymous();
  await signInDirectly(bench.record, ines, browser, nowMs);
  device = new Authenticator({ origin });
});
afterEach(() => bench.close());

async function addPasskey(asker = browser, on = device) {
  const options = (await asker.post("/api/account/passkeys/options")).json;
  return asker.post("/api/account/passkeys", { name: "The desk's", response: on.create(options) });
}

async function signInByPasskey(asker: Asker, on = device) {
  const options = (await asker.post("/api/sign-in/passkey/options")).json;
  return asker.post("/api/sign-in/passkey", { response: on.get(options) });
}

const withPassword = (asker: Asker) => asker.post("/api/sign-in", { signInName: ines.signInName, password });
const code = ({ json }: { json: { error?: { code: string } } | null }) => json?.error?.code;

describe("a passkey", () => {
  it("is kept, listed, and lets its owner in without a password", async () => {
    const added = await addPasskey();
    expect([added.status, added.json.passkeys]).toMatchObject([
      201,
      [{ name: "The desk's", createdMs: now, lastUsedMs: null, here: true }],
    ]);
    const fresh = bench.anonymous();
    expect((await signInByPasskey(fresh)).json.account.accountId).toBe(ines.accountId);
    expect((await fresh.get("/api/account")).json).toMatchObject({
      account: { passkeys: 1 },
      passkeys: [{ lastUsedMs: now }],
    });
  });

  it("that answers a question of another time, or twice, is refused", async () => {
    await addPasskey();
    const fresh = bench.anonymous();
    const options = (await fresh.post("/api/sign-in/passkey/options")).json;
    const response = device.get(options);
    expect((await fresh.post("/api/sign-in/passkey", { response })).status).toBe(200);
    expect(code(await bench.anonymous().post("/api/sign-in/passkey", { response }))).toBe("passkeyFailed");
    const late = (await fresh.post("/api/sign-in/passkey/options")).json;
    nowMs += linkLimits.challengeMs;
    expect(code(await fresh.post("/api/sign-in/passkey", { response: device.get(late) }))).toBe(
      "passkeyFailed",
    );
  });

  it.each([
    ["on the page of another site", { origin: "http://evil.example" }],
    ["without asking for its owner", { origin, verifiesUser: false }],
  ])("%s is refused, when it is made and when it is used", async (_what, behaviour) => {
    const odd = new Authenticator(behaviour);
    expect(code(await addPasskey(browser, odd))).toBe("passkeyFailed");
    await addPasskey();
    odd.keys.push(...device.keys);
    const options = (await bench.anonymous().post("/api/sign-in/passkey/options")).json;
    const response = odd.get(options, device.keys[0]!);
    expect(code(await bench.anonymous().post("/api/sign-in/passkey", { response }))).toBe("passkeyFailed");
  });

  it("that nobody has, or whose signature is another's, is refused", async () => {
    await addPasskey();
    const stranger = new Authenticator({ origin });
    const ask = async () => (await bench.anonymous().post("/api/sign-in/passkey/options")).json;
    stranger.create({ ...(await ask()), rp: { id: "localhost" } });
    const unknown = stranger.get(await ask());
    expect(code(await bench.anonymous().post("/api/sign-in/passkey", { response: unknown }))).toBe(
      "passkeyFailed",
    );
    const forged = { ...stranger.get(await ask()), id: device.keys[0]!.id, rawId: device.keys[0]!.id };
    expect(code(await bench.anonymous().post("/api/sign-in/passkey", { response: forged }))).toBe(
      "passkeyFailed",
    );
  });

  it("whose counter went back was copied, and is refused", async () => {
    await addPasskey();
    await signInByPasskey(bench.anonymous());
    device.keys[0]!.counter = 0;
    expect(code(await signInByPasskey(bench.anonymous()))).toBe("passkeyFailed");
  });

  it("of a closed account, or one that became a home account, opens nothing", async () => {
    await addPasskey();
    await bench.record.db
      .updateTable("account")
      .set({ role: "person" })
      .where("account_id", "=", ines.accountId)
      .execute();
    expect(code(await signInByPasskey(bench.anonymous()))).toBe("passkeyFailed");
    await bench.accounts.close(ines.clinicId, ines.accountId, nowMs);
    expect(code(await signInByPasskey(bench.anonymous()))).toBe("passkeyFailed");
  });

  it("does not tell a stranger whose names have passkeys", async () => {
    await addPasskey();
    const { json } = await bench.anonymous().post("/api/sign-in/passkey/options");
    expect(json.allowCredentials ?? []).toEqual([]);
  });

  it("is not offered where the address is a bare number", async () => {
    const host = "127.0.0.1:80";
    expect((await browser.get("/api/session", { host })).json.passkeysPossible).toBe(false);
    expect((await browser.get("/api/session")).json.passkeysPossible).toBe(true);
    expect(code(await browser.post("/api/account/passkeys/options", {}, { host }))).toBe("noPasskeysHere");
  });

  it("can be taken away by its owner alone", async () => {
    await addPasskey();
    const id = device.keys[0]!.id;
    expect((await bench.delete(`/api/account/passkeys/${id}`)).status).toBe(404);
    expect((await browser.delete(`/api/account/passkeys/${id}`)).json).toEqual({ passkeys: [] });
    expect(code(await signInByPasskey(bench.anonymous()))).toBe("passkeyFailed");
  });
});

describe("both factors", () => {
  it("cannot be asked for without having both", async () => {
    const answer = await browser.put("/api/account/second-factor", { required: true });
    expect([answer.status, code(answer)]).toEqual([409, "needsBoth"]);
  });

  it("are asked for one after the other: the password alone lets nobody in", async () => {
    await addPasskey();
    expect(
      (await browser.put("/api/account/second-factor", { required: true })).json.account.secondFactor,
    ).toBe(true);
    const fresh = bench.anonymous();
    const { json } = await withPassword(fresh);
    expect(json).toMatchObject({
      passkeyNeeded: true,
      options: { allowCredentials: [{ id: device.keys[0]!.id }] },
    });
    expect((await fresh.get("/api/session")).json.signedIn).toBe(false);
    const done = await fresh.post("/api/sign-in/passkey", { response: device.get(json.options) });
    expect(done.json.account.accountId).toBe(ines.accountId);
  });

  it("are one person's: another's passkey does not complete this password", async () => {
    await addPasskey();
    await browser.put("/api/account/second-factor", { required: true });
    const bram = await bench.as("nurse");
    const brams = new Authenticator({ origin });
    await addPasskey(bram, brams);
    const { options } = (await withPassword(bench.anonymous())).json;
    const response = brams.get({ ...options, allowCredentials: [] });
    expect(code(await bench.anonymous().post("/api/sign-in/passkey", { response }))).toBe("passkeyFailed");
  });

  it("are asked for again by confirming: the password alone does not", async () => {
    await addPasskey();
    await browser.put("/api/account/second-factor", { required: true });
    expect(code(await browser.post("/api/confirm", { password }))).toBe("passkeyNeeded");
    const options = (await browser.post("/api/confirm/passkey/options")).json;
    expect((await browser.post("/api/confirm/passkey", { response: device.get(options) })).status).toBe(200);
  });

  it("end with the last passkey, so that nobody is shut out", async () => {
    await addPasskey();
    await browser.put("/api/account/second-factor", { required: true });
    await browser.delete(`/api/account/passkeys/${device.keys[0]!.id}`);
    expect((await withPassword(bench.anonymous())).json.signedIn).toBe(true);
  });
});

describe("joining with a passkey", () => {
  it("makes an account without a password, whose only way in stays", async () => {
    const { token } = await bench.accounts.links.join(
      clinicId,
      { role: "nurse", displayName: "Bram Okonjo" },
      ines.accountId,
      nowMs,
    );
    const fresh = bench.anonymous();
    const about = { token, signInName: "bram" };
    const options = (await fresh.post("/api/join/passkey/options", about)).json;
    const brams = new Authenticator({ origin });
    const answer = await fresh.post("/api/join/passkey", {
      ...about,
      name: "Phone",
      response: brams.create(options),
    });
    expect(answer.json.account).toMatchObject({
      signInName: "bram",
      displayName: "Bram Okonjo",
      role: "nurse",
    });
    expect((await fresh.get("/api/account")).json.account).toMatchObject({ hasPassword: false, passkeys: 1 });
    const last = await fresh.delete(`/api/account/passkeys/${brams.keys[0]!.id}`);
    expect([last.status, code(last)]).toEqual([409, "lastWayIn"]);
    expect((await signInByPasskey(bench.anonymous(), brams)).status).toBe(200);
    nowMs += sessionLimits.strongMs;
    const stale = await fresh.put("/api/account/password", { password: "an orange tall door" });
    expect(code(stale)).toBe("confirmItIsYou");
    const again = (await fresh.post("/api/confirm/passkey/options")).json;
    await fresh.post("/api/confirm/passkey", { response: brams.get(again) });
    expect((await fresh.put("/api/account/password", { password: "an orange tall door" })).status).toBe(204);
    expect((await fresh.delete(`/api/account/passkeys/${brams.keys[0]!.id}`)).status).toBe(200);
  });
});
