import { v4 } from "uuid";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { keepPhoto } from "../../../test/record/kept.ts";
import {
  clinicDetails,
  clinicEntry,
  clinicId,
  entry,
  now,
  samplePerson,
} from "../../../test/record/samples.ts";
import { type Asker, askerOf, makeAccount, type TestBench, testBench } from "../../../test/server/bench.ts";
import { type Account, roles, sessionLimits } from "../../record/accounts/index.ts";
import { buildHome, buildServer } from "../index.ts";
import { mayWrite, type Rule, rulesAt } from "./index.ts";

/** Two clinics in one database, each with a person, accounts, links and passkeys of its own. */
const otherClinicId = v4();
const own = samplePerson();
const theirs = samplePerson();
const entries = [
  clinicEntry(),
  ...own.entries,
  { ...entry("clinic", { ...clinicDetails, name: "Hill clinic" }), clinicId: otherClinicId },
  ...theirs.entries.map((one) => ({ ...one, clinicId: otherClinicId })),
];

let bench: TestBench;
let nowMs: number;
beforeAll(async () => {
  nowMs = now;
  bench = await testBench(entries, { now: () => nowMs });
});
beforeEach(() => {
  nowMs = now;
});
afterAll(() => bench.close());

type Ids = Record<
  "personId" | "stomaId" | "photoId" | "accountId" | "sessionId" | "credentialId" | "linkId",
  string
>;

/** Somebody signed in, with ids of their own clinic for every place in an address. */
async function somebody(role: Account["role"], inClinic: string): Promise<{ asker: Asker; ids: Ids }> {
  const about = inClinic === clinicId ? own : theirs;
  const account = await makeAccount(bench.record, {
    role,
    clinicId: inClinic,
    personId: role === "person" || role === "helper" ? about.personId : undefined,
  });
  const { sessionId, secret } = await bench.accounts.sessions.start(account, {
    listener: "bench",
    device: "",
    nowMs,
  });
  const asker = bench.anonymous();
  asker.cookies.set("roundel", secret);
  const credentialId = `${role}-${v4()}`;
  await bench.accounts.passkeys.add(
    { credentialId, ...account, rpId: "localhost", publicKey: "", counter: 0, transports: [] },
    "a passkey",
    nowMs,
  );
  // Without this the last way in would be in the way of taking the passkey away.
  await bench.accounts.setPassword(account, "$argon2id$not a hash");
  const { linkId } = await bench.accounts.links.join(
    inClinic,
    { role: "nurse", displayName: "Somebody" },
    account.accountId,
    nowMs,
  );
  const colleague = await makeAccount(bench.record, { role: "nurse", clinicId: inClinic });
  const { personId, stomaId } = about;
  const photoId = await photoOf(personId, inClinic);
  return {
    asker,
    ids: { personId, stomaId, photoId, accountId: colleague.accountId, sessionId, credentialId, linkId },
  };
}

/** A photograph of a person: the one there is, or a new one where it was deleted. */
async function photoOf(personId: string, inClinic: string): Promise<string> {
  const [kept] = await bench.record.photos.list(inClinic, personId);
  return kept?.photoId ?? keepPhoto(bench.record, personId, inClinic);
}

const nobody: Ids = {
  personId: v4(),
  stomaId: v4(),
  photoId: v4(),
  accountId: v4(),
  sessionId: v4(),
  credentialId: v4(),
  linkId: v4(),
};

async function ask(asker: Asker, route: string, ids: Ids) {
  const [method, pattern] = route.split(" ") as ["GET" | "POST" | "PUT" | "DELETE", string];
  const url = pattern.replace(/:(\w+)/g, (_all, name: keyof Ids) => ids[name]);
  const answer =
    method === "GET"
      ? await asker.get(url)
      : await asker[method.toLowerCase() as "post" | "put" | "delete"](url, {});
  return { status: answer.status, code: answer.json?.error?.code, json: answer.json };
}

const guarded = Object.entries(rulesAt.bench).filter(([, { who }]) => who !== "anyone");
const aboutObjects = guarded.filter(([, { about }]) => about !== "nothing");
const recent = guarded.filter(([, rule]) => rule.recent);
/** A rule that asks for nothing but a session, in words that a table can show. */
const told = ([route, rule]: [string, Rule]) => [route, rule] as const;

describe("every route that is not for anyone", () => {
  it.each(guarded.map(told))("%s wants a session first", async (route) => {
    expect(await ask(bench.anonymous(), route, nobody)).toMatchObject({ status: 401, code: "signInFirst" });
  });

  it.each(guarded.map(told))("%s is for the roles of its rule and for no other", async (route, rule) => {
    for (const role of roles) {
      const { asker, ids } = await somebody(role, clinicId);
      const { status, code } = await ask(asker, route, ids);
      if (rule.who.includes(role as never)) {
        expect([role, status === 401 || status === 403 || status === 404 ? code : "let in"]).toEqual([
          role,
          "let in",
        ]);
      } else expect([role, status, code]).toEqual([role, 403, "roleForbids"]);
    }
  });

  it.each(aboutObjects.map(told))(
    "%s answers about another clinic's as about what is not there",
    async (route, rule) => {
      for (const role of roles.filter((one) => rule.who.includes(one as never))) {
        const { asker } = await somebody(role, clinicId);
        const { ids: others } = await somebody(role, otherClinicId);
        const foreign = await ask(asker, route, others);
        expect([role, foreign.status]).toEqual([role, 404]);
        expect(foreign.json).toEqual((await ask(asker, route, nobody)).json);
      }
    },
  );

  it.each(recent.map(told))("%s wants a sign-in of the last ten minutes", async (route) => {
    const { asker, ids } = await somebody("lead", clinicId);
    nowMs += sessionLimits.strongMs;
    expect(await ask(asker, route, ids)).toMatchObject({ status: 401, code: "confirmItIsYou" });
  });
});

describe("what is one's own", () => {
  it.each(guarded.filter(([, { about }]) => about === "ownSession" || about === "ownPasskey").map(told))(
    "%s is not the lead's to touch either",
    async (route) => {
      const { ids } = await somebody("nurse", clinicId);
      const { asker: lead } = await somebody("lead", clinicId);
      expect((await ask(lead, route, ids)).status).toBe(404);
    },
  );

  it("stays in its clinic in every list, today's and the export too", async () => {
    const { asker } = await somebody("lead", otherClinicId);
    for (const url of [
      "/api/people",
      "/api/today",
      "/api/accounts",
      "/api/export.jsonl",
      "/api/protocol",
      "/api/session",
    ]) {
      const { text, status } = await asker.get(url);
      expect([url, status]).toEqual([url, 200]);
      for (const secret of [own.personId, clinicId, clinicDetails.name]) expect(text).not.toContain(secret);
    }
    expect((await asker.get("/api/people")).text).toContain(theirs.personId);
  });
});

describe("entries", () => {
  const post = async (asker: Asker, draft: object) => {
    const { status, json } = await asker.post("/api/entries", { entries: [draft] });
    return json.error ? [status, json.error.code, json.error.faults?.[0]?.path] : [status];
  };
  const draftOf = (one: object) => {
    const { clinicId: _clinic, by: _by, recordedAt: _at, ...rest } = one as Record<string, unknown>;
    return rest;
  };

  it("about another clinic's people and stomas are refused as about people who are not there", async () => {
    const note = draftOf(entry("noted", { text: "seen" }, { personId: theirs.personId }));
    expect(await post(bench, note)).toEqual([422, "refused", "entries.0.personId"]);
    const stoma = draftOf(
      entry("noted", { text: "seen" }, { personId: own.personId, stomaId: theirs.stomaId }),
    );
    expect(await post(bench, stoma)).toEqual([422, "refused", "entries.0.stomaId"]);
    const correction = { ...draftOf(theirs.entries[0]!), id: entry("noted", { text: "" }).id };
    const corrects = {
      ...correction,
      personId: own.personId,
      corrects: { id: theirs.entries[0]!.id, as: "retract" },
      reason: "no",
    };
    expect((await post(bench, corrects))[0]).toBe(422);
    const before = await bench.store.entriesOfPerson(otherClinicId, theirs.personId);
    expect(before).toHaveLength(theirs.entries.length);
  });

  it("under an id that another clinic uses are this clinic's own, and leave the other's alone", async () => {
    const before = await bench.store.entriesAfter(otherClinicId, 0, 99);
    const same = entry(
      "person",
      { name: "Ulf Brandt", identifier: "R-7" },
      { id: theirs.entries[0]!.id, personId: theirs.personId },
    );
    expect(await post(bench, draftOf(same))).toEqual([201]);
    expect(await bench.store.entriesAfter(otherClinicId, 0, 99)).toEqual(before);
    const { asker } = await somebody("nurse", otherClinicId);
    expect((await asker.get("/api/people")).text).not.toContain("Ulf Brandt");
  });

  it.each([
    ["lead", "protocolSet", true],
    ["lead", "measured", true],
    ["nurse", "measured", true],
    ["nurse", "protocolSet", false],
    ["nurse", "clinic", false],
    ["reader", "measured", false],
    ["person", "measured", false],
    ["helper", "measured", false],
  ] as const)("by a %s of kind %s: %s", (role, kind, may) => {
    expect(mayWrite(role, kind)).toBe(may);
  });

  it("that change the protocol are the lead's, and one among others refuses them all", async () => {
    const { asker } = await somebody("nurse", clinicId);
    const set = draftOf(entry("protocolSet", { key: "maxGapMm", value: 4 }, { reason: "wide barriers" }));
    const note = draftOf(entry("noted", { text: "seen" }, { personId: own.personId }));
    const { status, json } = await asker.post("/api/entries", { entries: [note, set] });
    expect([status, json.error.code]).toEqual([403, "roleForbids"]);
    expect(await bench.store.entriesOfPerson(clinicId, own.personId)).toHaveLength(own.entries.length);
  });
});

describe("the table of rules", () => {
  it("has no rule for a route that is not there", async () => {
    const home = buildHome({ record: bench.record });
    await home.ready();
    for (const [listener, server] of [
      ["bench", bench.bench],
      ["home", home],
    ] as const) {
      for (const route of Object.keys(rulesAt[listener])) {
        const [method, url] = route.split(" ") as [string, string];
        // The pages' route is there only where pages are served.
        if (url !== "/*")
          expect([route, server.hasRoute({ method: method as "GET", url })]).toEqual([route, true]);
      }
    }
  });

  it.each(["bench", "home"] as const)("stops the %s from starting with a route that has none", (listener) => {
    const server =
      listener === "bench"
        ? buildServer({ record: bench.record, webDir: null })
        : buildHome({ record: bench.record });
    expect(() => server.get("/api/forgotten", async () => "open to anyone")).toThrow(
      "GET /api/forgotten has no rule",
    );
    expect(() => server.delete("/api/session", async () => "")).toThrow("DELETE /api/session has no rule");
  });

  it("guards HEAD as it guards GET", async () => {
    const reply = await bench.bench.inject({ method: "HEAD", url: "/api/people" });
    expect(reply.statusCode).toBe(401);
    expect(askerOf(bench.bench).cookies.size).toBe(0);
  });
});

describe("a page that looks by itself", () => {
  const looks = { "roundel-unattended": "1" };
  const left = async (asker: Asker, headers = {}) => (await asker.get("/api/session", headers)).json.endsInMs;

  it("is told how long the session lasts, and does not put its end off", async () => {
    const { asker } = await somebody("nurse", clinicId);
    const { idleMs, absoluteMs } = sessionLimits;
    expect(await left(asker)).toEqual({ idle: idleMs, absolute: absoluteMs });
    nowMs += idleMs - 90_000;
    expect(await left(asker, looks)).toEqual({ idle: 90_000, absolute: absoluteMs - idleMs + 90_000 });
    nowMs += 60_000;
    expect((await left(asker, looks)).idle).toBe(30_000);
    expect((await left(asker)).idle).toBe(idleMs);
  });

  it("finds the session ended though it has looked all the while", async () => {
    const { asker } = await somebody("nurse", clinicId);
    const minutes = sessionLimits.idleMs / 60_000;
    for (let minute = 1; minute < minutes; minute += 1) {
      nowMs += 60_000;
      expect((await asker.get("/api/today", looks)).status).toBe(200);
    }
    nowMs += 60_000;
    expect((await asker.get("/api/today", looks)).status).toBe(401);
  });
});

describe("the name beside what one writes", () => {
  it("is everybody's own to change, and nothing else of the account is", async () => {
    const { asker } = await somebody("reader", clinicId);
    const { json } = await asker.put("/api/account", { displayName: "Tamsin Holloway" });
    expect(json.account.displayName).toBe("Tamsin Holloway");
    const { status } = await asker.put("/api/account", { displayName: "Tamsin", role: "lead" });
    expect(status).toBe(422);
  });
});
