import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicDetails, clinicEntry, now } from "../../../../test/record/samples.ts";
import { makeAccount, type TestBench, testBench } from "../../../../test/server/bench.ts";
import { hashPassword, linkLimits } from "../../../record/accounts/index.ts";

const password = "an orange tall door";
const passwordHash = await hashPassword("a quiet blue gate");

let bench: TestBench;
let nowMs: number;
beforeEach(async () => {
  nowMs = now;
  bench = await testBench([clinicEntry()], { now: () => nowMs });
});
afterEach(() => bench.close());

const tokenIn = (link: string) => link.split("#")[1]!;
const invite = async (more: object = {}) =>
  (await bench.post("/api/accounts/links", { role: "nurse", displayName: "Bram Okonjo", ...more })).json;
const signIn = (signInName: string, given: string) =>
  bench.anonymous().post("/api/sign-in", { signInName, password: given });

describe("a colleague", () => {
  it("joins by a link that the lead made, in the role that she chose", async () => {
    const { link, expiresMs } = await invite({ role: "reader", signInName: "bram" });
    expect(link).toMatch(/^http:\/\/localhost\/join#[\w-]{43}$/);
    const fresh = bench.anonymous();
    expect((await fresh.post("/api/join/look", { token: tokenIn(link) })).json).toEqual({
      clinicName: clinicDetails.name,
      displayName: "Bram Okonjo",
      role: "reader",
      signInName: "bram",
      expiresMs,
    });
    const { json } = await fresh.post("/api/join", { token: tokenIn(link), signInName: "bram", password });
    expect(json.account).toMatchObject({ signInName: "bram", displayName: "Bram Okonjo", role: "reader" });
    expect((await signIn("Bram", password)).status).toBe(200);
    expect((await fresh.post("/api/entries", { entries: [{}] })).json.error.code).toBe("roleForbids");
  });

  it("joins once, within a week, and not after the lead took the link back", async () => {
    const join = (link: string, signInName: string) =>
      bench.anonymous().post("/api/join", { token: tokenIn(link), signInName, password });
    const used = (await invite()).link;
    await join(used, "bram");
    expect((await join(used, "bram two")).json.error.code).toBe("linkSpent");
    const back = (await invite()).link;
    const [line] = (await bench.get("/api/accounts")).json.links;
    expect(line).toMatchObject({ kind: "join", displayName: "Bram Okonjo", role: "nurse" });
    expect((await bench.delete(`/api/accounts/links/${line.linkId}`)).status).toBe(204);
    expect((await join(back, "bram three")).json.error.code).toBe("linkSpent");
    const late = (await invite()).link;
    nowMs += linkLimits.joinMs;
    expect((await join(late, "bram four")).json.error.code).toBe("linkSpent");
  });

  it.each([
    [{ signInName: "x" }, 422],
    [{ password: "short" }, 422],
    [{ password: "Bram Okonjo 12" }, 422],
    [{ role: "lead" }, 422],
  ])("with %j is refused, and the link still holds", async (wrong, status) => {
    const token = tokenIn((await invite()).link);
    const join = (more: object) =>
      bench.anonymous().post("/api/join", { token, signInName: "bram", password, ...more });
    expect((await join(wrong)).status).toBe(status);
    expect((await join({})).status).toBe(200);
  });

  it("does not take a name that somebody has, in any case or width", async () => {
    await makeAccount(bench.record, { role: "nurse", displayName: "x" });
    const taken = (await bench.get("/api/accounts")).json.accounts[1].signInName;
    const { link } = await invite();
    const answer = await bench.anonymous().post("/api/join", {
      token: tokenIn(link),
      signInName: ` ${taken.toUpperCase().replace(" ", "  ")} `,
      password,
    });
    expect([answer.status, answer.json.error.code]).toEqual([409, "nameTaken"]);
    expect((await invite({ signInName: taken })).error.code).toBe("nameTaken");
  });

  it("is made a lead, reader or nurse, and never a person of the home log", async () => {
    expect((await invite({ role: "person" })).error.code).toBe("refused");
  });
});

describe("recovery", () => {
  it("sets another password, ends every session and asks for the passkey no more", async () => {
    const bram = await bench.as("nurse");
    const { link } = (await bench.post(`/api/accounts/${bram.account.accountId}/recovery`)).json;
    const token = tokenIn(link);
    const fresh = bench.anonymous();
    expect((await fresh.post("/api/recover/look", { token })).json).toMatchObject({
      signInName: bram.account.signInName,
      clinicName: clinicDetails.name,
    });
    expect((await fresh.post("/api/recover", { token, password: "short" })).status).toBe(422);
    expect((await fresh.post("/api/recover", { token, password })).json.signedIn).toBe(true);
    expect((await bram.get("/api/session")).json.signedIn).toBe(false);
    expect((await fresh.post("/api/recover", { token, password })).json.error.code).toBe("linkSpent");
    expect((await signIn(bram.account.signInName, password)).status).toBe(200);
  });

  it("has one link at a time, for a day, and none for a closed account", async () => {
    const { account } = await bench.as("nurse");
    const ask = async () => (await bench.post(`/api/accounts/${account.accountId}/recovery`)).json.link;
    const [first, second] = [tokenIn(await ask()), tokenIn(await ask())];
    const look = (token: string) => bench.anonymous().post("/api/recover/look", { token });
    expect([(await look(first)).status, (await look(second)).status]).toEqual([410, 200]);
    const closed = await bench.as("nurse");
    const token = tokenIn((await bench.post(`/api/accounts/${closed.account.accountId}/recovery`)).json.link);
    await bench.post(`/api/accounts/${closed.account.accountId}/close`);
    expect((await look(token)).status).toBe(410);
    expect((await bench.post(`/api/accounts/${closed.account.accountId}/recovery`)).status).toBe(404);
    nowMs += linkLimits.recoverMs;
    expect((await look(second)).status).toBe(410);
  });
});

describe("the lead", () => {
  it("changes names and roles, which hold at once", async () => {
    const bram = await bench.as("nurse");
    const url = `/api/accounts/${bram.account.accountId}`;
    const { json } = await bench.put(url, { role: "reader", displayName: "Bram O." });
    expect(json.account).toMatchObject({ role: "reader", displayName: "Bram O." });
    expect((await bram.post("/api/entries", { entries: [{}] })).status).toBe(403);
    expect((await bram.get("/api/session")).json.author.name).toBe("Bram O.");
  });

  it("closes an account, whose name stays beside what it wrote", async () => {
    const bram = await bench.as("nurse");
    const { json } = await bench.post(`/api/accounts/${bram.account.accountId}/close`);
    expect(json.account).toMatchObject({
      closedMs: nowMs,
      hasPassword: false,
      displayName: bram.account.displayName,
    });
    expect((await bram.get("/api/people")).status).toBe(401);
    expect((await bench.get("/api/accounts")).json.accounts).toHaveLength(2);
  });

  it("stays, where she is the only one: neither closed nor made a nurse", async () => {
    const url = `/api/accounts/${bench.lead!.accountId}`;
    expect((await bench.post(`${url}/close`)).json.error.code).toBe("lastLead");
    expect((await bench.put(url, { role: "nurse" })).json.error.code).toBe("lastLead");
    await bench.as("lead");
    expect((await bench.put(url, { role: "nurse" })).status).toBe(200);
  });

  it("is left, where two close each other at once", async () => {
    const other = await bench.as("lead");
    const answers = await Promise.all([
      bench.post(`/api/accounts/${other.account.accountId}/close`),
      other.post(`/api/accounts/${bench.lead!.accountId}/close`),
    ]);
    const open = (await bench.accounts.list(bench.lead!.clinicId)).filter(
      ({ closedMs }) => closedMs === null,
    );
    expect(open).toHaveLength(1);
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
  });
});

describe("one's own account", () => {
  it("lists its sessions by device and marks the one that asks", async () => {
    const bram = await makeAccount(bench.record, { role: "nurse", passwordHash });
    const [desk, phone] = [bench.anonymous(), bench.anonymous()];
    const headers = {
      "user-agent": "Mozilla/5.0 (Linux; Android 14) AppleWebKit/537.36 Chrome/141.0 Mobile Safari/537.36",
    };
    const credentials = { signInName: bram.signInName, password: "a quiet blue gate" };
    await desk.post("/api/sign-in", credentials);
    nowMs += 1000;
    await phone.post("/api/sign-in", credentials, headers);
    const { sessions, account } = (await desk.get("/api/account")).json;
    expect(account).toMatchObject({ accountId: bram.accountId, hasPassword: true, secondFactor: false });
    expect(
      sessions.map(({ device, current }: { device: string; current: boolean }) => [device, current]),
    ).toEqual([
      ["Chrome or Chromium on Android", false],
      ["Another program", true],
    ]);
    expect((await desk.delete(`/api/account/sessions/${sessions[0].sessionId}`)).status).toBe(204);
    expect((await phone.get("/api/session")).json.signedIn).toBe(false);
    expect(JSON.stringify(sessions)).not.toContain(desk.cookies.get("roundel"));
  });

  it("changes the name beside what it writes from then on, and nothing else of itself", async () => {
    const bram = await bench.as("nurse");
    const { json } = await bram.put("/api/account", { displayName: " Bram O. " });
    expect(json.account).toMatchObject({ displayName: "Bram O.", role: "nurse" });
    expect((await bram.get("/api/session")).json.author).toEqual({
      id: bram.account.accountId,
      name: "Bram O.",
    });
    for (const wrong of [
      { displayName: "" },
      { displayName: "Bram\u202e" },
      { displayName: "B", role: "lead" },
    ]) {
      expect((await bram.put("/api/account", wrong)).status).toBe(422);
    }
  });

  it("changes its password with the old one, which ends the other sessions", async () => {
    const bram = await makeAccount(bench.record, { role: "nurse", passwordHash });
    const [desk, phone] = [bench.anonymous(), bench.anonymous()];
    const credentials = { signInName: bram.signInName, password: "a quiet blue gate" };
    await desk.post("/api/sign-in", credentials);
    await phone.post("/api/sign-in", credentials);
    const change = (body: object) => desk.put("/api/account/password", body);
    expect((await change({ password })).json.error.code).toBe("signInFailed");
    expect((await change({ current: "not this", password })).json.error.code).toBe("signInFailed");
    const weak = await change({ current: "a quiet blue gate", password: "short" });
    expect([weak.status, weak.json.error.faults[0].path]).toEqual([422, "password"]);
    expect((await change({ current: "a quiet blue gate", password })).status).toBe(204);
    expect((await desk.get("/api/session")).json.signedIn).toBe(true);
    expect((await phone.get("/api/session")).json.signedIn).toBe(false);
    expect((await signIn(bram.signInName, "a quiet blue gate")).status).toBe(401);
    expect((await signIn(bram.signInName, password)).status).toBe(200);
  });
});
