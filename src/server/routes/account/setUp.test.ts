import { v4 } from "uuid";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { clinicDetails, clinicEntry, clinicId, now } from "../../../../test/record/samples.ts";
import { type TestBench, testBench } from "../../../../test/server/bench.ts";

const { nurse: _nurse, ...details } = clinicDetails;
const account = { signInName: "ines", displayName: "Ines Marlow", password: "a quiet blue gate" };
const aDay = 24 * 3600 * 1000;

let bench: TestBench;
let nowMs: number;
beforeEach(async () => {
  nowMs = now;
  bench = await testBench([], { now: () => nowMs });
});
afterEach(() => bench.close());

const link = async (forClinic: string | null = null) =>
  (await bench.accounts.links.setUp(forClinic, nowMs)).token;
const setUp = (token: string, more: object = {}) =>
  bench.post("/api/set-up", { token, details, account, ...more });

describe("before anybody leads", () => {
  it("the session says so, and tells the protocol's defaults and nothing else", async () => {
    expect((await bench.get("/api/session")).json).toMatchObject({
      signedIn: false,
      setUp: false,
      account: null,
      clinic: null,
      author: null,
      demo: false,
      programVersion: "0.0.1",
      protocol: { maxGapMm: 3.2 },
      counts: { people: 0, active: 0, entries: 0 },
    });
  });

  it.each(["", "x", "a".repeat(43)])("a link that was never made (%j) opens nothing", async (token) => {
    expect((await setUp(token)).status).toBe(token === "" ? 422 : 410);
    expect(await bench.store.clinicIds()).toEqual([]);
  });
});

describe("the set-up link", () => {
  it("makes the clinic and its lead, who is signed in and named on the clinic's own entry", async () => {
    const token = await link();
    expect((await bench.post("/api/set-up/look", { token })).json).toEqual({
      clinicName: null,
      expiresMs: nowMs + aDay,
    });
    const { status, json } = await setUp(token);
    expect(status).toBe(200);
    expect(json).toMatchObject({
      signedIn: true,
      setUp: true,
      account: { signInName: "ines", role: "lead" },
      author: { name: "Ines Marlow" },
      clinic: { details: { name: details.name, nurse: { name: "Ines Marlow" } } },
      counts: { entries: 1 },
    });
    const [entry] = await bench.store.clinicEntries(json.clinic.clinicId);
    expect(entry?.by).toEqual({ id: json.account.accountId, name: "Ines Marlow" });
    expect((await bench.get("/api/people")).status).toBe(200);
  });

  it("works once, and takes every other link of the first start with it", async () => {
    const [first, second] = [await link(), await link()];
    await setUp(first);
    for (const token of [first, second]) {
      expect((await bench.anonymous().post("/api/set-up/look", { token })).json.error.code).toBe("linkSpent");
      expect((await setUp(token)).json.error.code).toBe("linkSpent");
    }
  });

  it("used twice at once makes one clinic and one lead", async () => {
    const token = await link();
    const answers = await Promise.all(
      ["ines", "bram", "edda"].map((signInName) => setUp(token, { account: { ...account, signInName } })),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 410, 410]);
    const clinicIds = await bench.store.clinicIds();
    expect(clinicIds).toHaveLength(1);
    expect(await bench.accounts.list(clinicIds[0]!)).toHaveLength(1);
  });

  it("holds for a day", async () => {
    const token = await link();
    nowMs += aDay;
    expect((await setUp(token)).json.error.code).toBe("linkSpent");
  });

  it.each([
    [{ details: { ...details, timeZone: "Atlantis" } }, "details.timeZone"],
    [{ details: { ...details, name: "" } }, "details.name"],
    [{ details: { ...details, logo: "x" } }, "details.logo"],
    [{ details: { ...details, nurse: { name: "" } } }, "details.nurse.name"],
    [{ details: undefined }, "details"],
    [{ account: { ...account, password: "short" } }, "account.password"],
    [{ account: { ...account, password: "Harbour Street 1" } }, "account.password"],
    [{ account: { ...account, signInName: "i" } }, "account.signInName"],
    [{ account: { ...account, signInName: "ines\u200b" } }, "account.signInName"],
    [{ account: { ...account, displayName: " " } }, "account.displayName"],
    [{ account: { ...account, role: "lead" } }, "account.role"],
  ])("with %j is refused, the field is named, and the link still holds", async (wrong, path) => {
    const token = await link();
    const { status, json, text } = await setUp(token, wrong);
    expect([status, json.error.code]).toEqual([422, "refused"]);
    expect(json.error.faults.map((fault: { path: string }) => fault.path)).toContain(path);
    expect(text).not.toContain("quiet blue");
    expect(await bench.store.clinicIds()).toEqual([]);
    expect((await setUp(token)).status).toBe(200);
  });
});

describe("a record that has a clinic and nobody to lead it", () => {
  beforeEach(() => bench.store.append([clinicEntry()]));

  it("keeps its details: the link makes the lead's account alone", async () => {
    const token = await link(clinicId);
    expect((await bench.post("/api/set-up/look", { token })).json.clinicName).toBe(clinicDetails.name);
    const { json } = await setUp(token, { details: undefined });
    expect(json).toMatchObject({ clinic: { clinicId, details: clinicDetails }, counts: { entries: 1 } });
  });
});

describe("the link of an empty record", () => {
  it("makes no second clinic beside one that was imported meanwhile", async () => {
    const token = await link();
    await bench.store.append([clinicEntry()]);
    expect((await setUp(token)).json.error.code).toBe("linkSpent");
    expect(await bench.store.clinicIds()).toEqual([clinicId]);
  });
});

describe("another clinic in the same database", () => {
  it("is made by its own kind of link, and sees nothing of the first", async () => {
    await setUp(await link());
    const first = (await bench.get("/api/session")).json;
    const other = bench.anonymous();
    const { token } = await bench.accounts.links.newClinic(nowMs);
    const taken = await other.post("/api/set-up", { token, details, account });
    expect([taken.status, taken.json.error.code]).toEqual([409, "nameTaken"]);
    const theirs = { ...account, signInName: `other ${v4().slice(0, 4)}` };
    const { json } = await other.post("/api/set-up", {
      token,
      details: { ...details, name: "Hill" },
      account: theirs,
    });
    expect(json.clinic.clinicId).not.toBe(first.clinic.clinicId);
    expect((await other.get("/api/accounts")).json.accounts).toHaveLength(1);
    expect(await bench.store.clinicIds()).toHaveLength(2);
  });
});
