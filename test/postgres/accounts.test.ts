import { v4 } from "uuid";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { type Account, type AccountError, sessionLimits } from "../../src/record/accounts/index.ts";
import { type OpenRecord, openRecord } from "../../src/record/open/index.ts";
import { emptyDatabase } from "./database.ts";

/** Two processes on one database: what one does, the other knows. */
let one: OpenRecord;
let other: OpenRecord;
let clinicId: string;
let lead: Account;
const nowMs = Date.parse("2026-11-25T10:00:00Z");

beforeAll(async () => {
  const url = await emptyDatabase();
  [one, other] = await Promise.all([openRecord({ url }), openRecord({ url })]);
});
beforeEach(async () => {
  clinicId = v4();
  lead = await account("lead");
});
afterAll(() => Promise.all([one.close(), other.close()]));

function account(role: Account["role"]): Promise<Account> {
  const signInName = `${role} ${v4()}`;
  return one.accounts.create({ clinicId, signInName, displayName: "x", role, passwordHash: null }, nowMs);
}

/** Does the same in both processes at once and tells which came through. */
async function both(work: (record: OpenRecord) => Promise<unknown>): Promise<string[]> {
  const done = await Promise.allSettled([work(one), work(other)]);
  return done
    .map((result) => (result.status === "fulfilled" ? "done" : (result.reason as AccountError).code))
    .sort();
}

describe("accounts on PostgreSQL", () => {
  it("come back as they were made, numbers as numbers", async () => {
    await one.accounts.passkeys.add(
      {
        credentialId: v4(),
        ...lead,
        rpId: "localhost",
        publicKey: "a",
        counter: 7,
        transports: ["internal"],
      },
      "desk",
      nowMs,
    );
    expect(await other.accounts.byName(lead.signInName.toUpperCase())).toEqual({ ...lead, passkeys: 1 });
    expect(await other.accounts.passkeys.keys(lead, "localhost")).toMatchObject([
      { counter: 7, transports: ["internal"] },
    ]);
  });

  it("have a name that nobody else has, whoever comes first", async () => {
    const about = {
      clinicId,
      signInName: `twin ${v4()}`,
      displayName: "x",
      role: "nurse",
      passwordHash: null,
    } as const;
    expect(await both(({ accounts }) => accounts.create(about, nowMs))).toEqual(["done", "nameTaken"]);
  });

  it("leave a lead, where two close each other at once", async () => {
    const second = await account("lead");
    const done = await Promise.allSettled([
      one.accounts.close(clinicId, second.accountId, nowMs),
      other.accounts.close(clinicId, lead.accountId, nowMs),
    ]);
    expect(done.map(({ status }) => status).sort()).toEqual(["fulfilled", "rejected"]);
    const open = (await one.accounts.list(clinicId)).filter(({ closedMs }) => closedMs === null);
    expect(open).toHaveLength(1);
  });
});

describe("a session", () => {
  it("opened in one process is known in the other, and ended in both at once", async () => {
    const { secret } = await one.accounts.sessions.start(lead, { listener: "bench", device: "desk", nowMs });
    const found = await other.accounts.sessions.resolve(secret, "bench", nowMs);
    expect(found?.signedIn).toMatchObject({ account: lead, strongUntilMs: nowMs + sessionLimits.strongMs });
    await other.accounts.sessions.endAll(lead);
    expect(await one.accounts.sessions.resolve(secret, "bench", nowMs)).toBeNull();
  });

  it("whose hour ends in both at once gets one new secret, and the old one holds for a moment", async () => {
    const { secret } = await one.accounts.sessions.start(lead, { listener: "bench", device: "desk", nowMs });
    await one.accounts.sessions.resolve(secret, "bench", nowMs + 29 * 60_000);
    const laterMs = nowMs + 58 * 60_000;
    await one.accounts.sessions.resolve(secret, "bench", laterMs);
    const found = await Promise.all(
      [one, other].map(({ accounts }) => accounts.sessions.resolve(secret, "bench", nowMs + 60 * 60_000)),
    );
    expect(found.every((session) => session !== null)).toBe(true);
    expect(found.filter((session) => session?.freshSecret)).toHaveLength(1);
  });
});

describe("what works once", () => {
  it("is a link: used in both at once, one gets it", async () => {
    const { token } = await one.accounts.links.join(
      clinicId,
      { role: "nurse", displayName: "x" },
      lead.accountId,
      nowMs,
    );
    const spend = ({ accounts }: OpenRecord) =>
      accounts.together((inOne) => inOne.links.spend(token, ["join"], nowMs));
    expect(await both(spend)).toEqual(["done", "linkSpent"]);
  });

  it("is a set-up link, with every other of the first start", async () => {
    const tokens = await Promise.all([one, other].map(({ accounts }) => accounts.links.setUp(null, nowMs)));
    const done = await Promise.allSettled(
      [one, other].map(({ accounts }, index) =>
        accounts.together((inOne) => inOne.links.spend(tokens[index]!.token, ["setUp"], nowMs)),
      ),
    );
    expect(done.map(({ status }) => status).sort()).toEqual(["fulfilled", "rejected"]);
  });

  it("is a challenge", async () => {
    await one.accounts.challenges.give("c", "signIn", null, nowMs);
    const taken = await Promise.all(
      [one, other].map(({ accounts }) => accounts.challenges.take("c", ["signIn"], nowMs)),
    );
    expect(taken.filter((challenge) => challenge !== null)).toHaveLength(1);
  });
});

describe("failed tries", () => {
  it("are counted together, however many processes answer at once", async () => {
    const counted = [{ kind: "stranger" as const, parts: [v4()] }];
    const tries = await Promise.all(
      Array.from({ length: 12 }, (_, index) =>
        (index % 2 === 0 ? one : other).accounts.throttle.take(counted, nowMs),
      ),
    );
    expect(tries.filter(({ allowed }) => allowed)).toHaveLength(4);
    const told = await other.accounts.throttle.take(counted, nowMs + 1);
    expect(told).toEqual({ allowed: false, waitMs: 1999 });
  });
});
