import { sql } from "kysely";
import { v4, v7 } from "uuid";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import {
  clinicDetails,
  clinicEntry,
  clinicId,
  day,
  draft,
  entry,
  nurse,
  round,
  samplePerson,
} from "../../../test/record/samples.ts";
import { type TestBench, testBench } from "../../../test/server/bench.ts";
import { rulesAt } from "../access/index.ts";
import { auditAt } from "./index.ts";

const edda = samplePerson();
const bram = samplePerson({ name: "Bram Okonjo" });
const { personId, stomaId, about } = edda;
const measured = entry("measured", round(32), { ...about, at: day("2026-11-24") });

let bench: TestBench;
beforeEach(async () => {
  bench = await testBench([clinicEntry(), ...edda.entries, ...bram.entries, measured]);
});
afterEach(() => bench.close());

const trail = async () => (await bench.record.audit.page(clinicId, { limit: 100 })).lines.reverse();
const last = async () => (await trail()).at(-1)!;
const person = { kind: "person", id: personId };
const note = () => draft("noted", { text: "Called back." }, { personId });

describe("every route", () => {
  it.each(["bench", "home"] as const)("of the %s has an action or a reason to have none", (listener) => {
    expect(Object.keys(auditAt[listener]).sort()).toEqual(Object.keys(rulesAt[listener]).sort());
    for (const rule of Object.values(auditAt[listener])) {
      expect("action" in rule || rule.unaudited.length > 10).toBe(true);
    }
  });

  it("that is added without one makes the server refuse to start", async () => {
    const { benchRules } = await import("../access/rules.ts");
    benchRules["GET /api/new"] = benchRules["GET /api/today"]!;
    const { buildServer } = await import("../index.ts");
    const grown = buildServer({ record: bench.record, webDir: null });
    expect(() => grown.get("/api/new", async () => ({}))).toThrow(
      "GET /api/new has no rule in src/server/audit",
    );
    delete benchRules["GET /api/new"];
    await grown.close();
  });

  it("that a nurse or a lead can read or write with leaves the line that its rule says", async () => {
    const base = `/api/people/${personId}/stomas/${stomaId}`;
    const csv = "date,what,why\n2026-11-20,barrier,planned";
    const asked: [string, () => Promise<{ status: number }>, object[]][] = [
      ["readToday", () => bench.get("/api/today"), []],
      ["listPeople", () => bench.get("/api/people"), []],
      ["listPeople", () => bench.get("/api/people?text=edda"), [person]],
      ["readPerson", () => bench.get(`/api/people/${personId}`), [person]],
      ["readPerson", () => bench.upload(`${base}/log/check`, csv), [person, { kind: "stoma", id: stomaId }]],
      ["exportLog", () => bench.get(`/api/people/${personId}/changes.csv`), [person]],
      ["exportRecord", () => bench.get("/api/export.jsonl"), []],
      ["exportAudit", () => bench.get("/api/audit.jsonl"), []],
      ["readAudit", () => bench.get(`/api/audit?personId=${personId}`), [person]],
      ["listAccounts", () => bench.get("/api/accounts"), []],
    ];
    for (const [action, ask, objects] of asked) {
      expect((await ask()).status).toBe(200);
      expect(await last()).toMatchObject({ action, objects, outcome: "done", accountId: nurse.id });
    }
    expect(await trail()).toHaveLength(asked.length);
    for (const url of [
      "/api/session",
      "/api/protocol",
      "/api/account",
      "/api/frame-card.pdf",
      "/api/openapi.json",
    ]) {
      expect([url, (await bench.get(url)).status]).toEqual([url, 200]);
    }
    expect(await trail()).toHaveLength(asked.length);
    expect(await bench.record.audit.verify(clinicId)).toMatchObject({ ok: true });
  });
});

describe("a write", () => {
  it("names the entries, and who wrote them from which session", async () => {
    const sent = note();
    await bench.post("/api/entries", { entries: [sent] });
    expect(await last()).toMatchObject({
      action: "writeEntries",
      objects: [person, { kind: "entry", id: sent.id }],
      accountId: nurse.id,
      sessionId: expect.stringMatching(/^[0-9a-f-]{36}$/),
    });
    expect(await trail()).toHaveLength(1);
  });

  it("of each kind is one line of its own", async () => {
    const base = `/api/people/${personId}/stomas/${stomaId}`;
    const adviceId = v7();
    await bench.post(`${base}/cutting-sheet`, { adviceId, measuredId: measured.id, clearanceMm: 2 });
    expect(await last()).toMatchObject({ action: "makeSheet" });
    expect((await last()).objects.at(-1)).toEqual({ kind: "entry", id: adviceId });
    await bench.upload(`${base}/log/import`, "date,what,why\n2026-11-20,barrier,planned", { accept: "all" });
    expect(await last()).toMatchObject({ action: "importLog" });
    expect((await last()).objects.map(({ kind }) => kind)).toEqual(["person", "stoma", "entry"]);
    await bench.post("/api/clinic", { details: { ...clinicDetails, nursePhone: "01632 960 200" } });
    expect(await last()).toMatchObject({ action: "changeClinic" });
    expect(await trail()).toHaveLength(3);
  });

  it("whose line cannot be kept is not kept either", async () => {
    await sql`create trigger full before insert on audit_line begin select raise(abort, 'full'); end`.execute(
      bench.record.db,
    );
    const sent = note();
    expect((await bench.post("/api/entries", { entries: [sent] })).status).toBe(500);
    expect(await bench.store.entry(clinicId, sent.id as string)).toBeNull();
  });

  it("that is refused for what is in it leaves none", async () => {
    expect((await bench.post("/api/entries", { entries: [{ kind: "noted" }] })).status).toBe(422);
    expect(await trail()).toEqual([]);
  });
});

describe("a look", () => {
  it("is not granted where its line cannot be kept", async () => {
    await sql`create trigger full before insert on audit_line begin select raise(abort, 'full'); end`.execute(
      bench.record.db,
    );
    for (const url of [`/api/people/${personId}`, "/api/today", "/api/export.jsonl"]) {
      const answer = await bench.get(url);
      expect([url, answer.status, answer.json?.error.code]).toEqual([url, 503, "notAudited"]);
      expect(answer.text).not.toContain("Edda");
    }
    expect((await bench.get("/api/protocol")).status).toBe(200);
  });

  it("that the role forbids, or that is at another clinic's person, is a line", async () => {
    const reader = await bench.as("reader");
    await reader.post("/api/entries", { entries: [note()] });
    expect(await last()).toMatchObject({
      action: "writeEntries",
      outcome: "refused",
      accountId: reader.account.accountId,
    });
    const nobody = v4();
    await reader.get(`/api/people/${nobody}`);
    expect(await last()).toMatchObject({
      action: "readPerson",
      outcome: "refused",
      objects: [{ kind: "person", id: nobody }],
    });
  });

  it("without a session leaves none: there is nobody to name", async () => {
    expect((await bench.anonymous().get(`/api/people/${personId}`)).status).toBe(401);
    expect(await trail()).toEqual([]);
  });

  it("holds no name and no content, wherever it was typed", async () => {
    await bench.get("/api/people?text=edda%20voss");
    await bench.get("/api/people/Edda%20Voss-Edda%20Voss");
    await bench.anonymous().post("/api/sign-in", { signInName: "Edda Voss", password: "Edda Voss Edda" });
    await bench.post("/api/entries", { entries: [note()] });
    expect(JSON.stringify(await trail())).not.toMatch(/edda|voss|called back/i);
  });
});

describe("signing in", () => {
  it("that fails is a line, with the account where there is one of that name", async () => {
    const { account } = await bench.as("nurse");
    const stranger = bench.anonymous();
    await stranger.post("/api/sign-in", { signInName: account.signInName, password: "wrong horse battery" });
    expect(await last()).toMatchObject({
      action: "signIn",
      outcome: "refused",
      accountId: null,
      objects: [{ kind: "account", id: account.accountId }],
    });
    await stranger.post("/api/sign-in", { signInName: "nobody here", password: "wrong horse battery" });
    expect(await last()).toMatchObject({
      action: "signIn",
      outcome: "refused",
      accountId: null,
      objects: [],
    });
  });

  it("out is a line of whoever it was", async () => {
    await bench.post("/api/sign-out", {});
    expect(await last()).toMatchObject({ action: "signOut", accountId: nurse.id });
  });
});

describe("the trail", () => {
  it("is for the lead alone", async () => {
    for (const role of ["nurse", "reader"] as const) {
      const asker = await bench.as(role);
      for (const url of ["/api/audit", "/api/audit.jsonl"]) expect((await asker.get(url)).status).toBe(403);
    }
  });

  it("is read in pages, and can be taken out whole", async () => {
    for (let times = 0; times < 5; times += 1) await bench.get(`/api/people/${personId}`);
    const { json } = await bench.get("/api/audit?limit=2");
    expect(json).toMatchObject({ lines: [{ seq: 5 }, { seq: 4 }], next: 4 });
    expect((await bench.get(`/api/audit?limit=2&before=${json.next}`)).json.lines[0].seq).toBe(3);
    expect((await bench.get("/api/audit?limit=0")).status).toBe(422);
    const { text, headers } = await bench.get("/api/audit.jsonl");
    expect(headers["content-disposition"]).toBe('attachment; filename="audit-2026-11-25.jsonl"');
    const [header, ...lines] = text.trimEnd().split("\n");
    expect(JSON.parse(header!)).toMatchObject({ format: "roundel-audit", head: { seq: lines.length } });
  });
});

describe("erasing over HTTP", () => {
  const order = { ground: "consentWithdrawn", typedName: "edda  voss" };
  const url = `/api/people/${personId}/erase`;

  it("needs the lead, a recent sign-in, the name typed and a ground of the list", async () => {
    expect((await (await bench.as("nurse")).post(url, order)).status).toBe(403);
    expect((await bench.post(url, { ...order, typedName: "Edda" })).json.error.faults[0].path).toBe(
      "typedName",
    );
    expect((await bench.post(url, { ...order, ground: "because she said so" })).status).toBe(422);
    expect((await bench.post(`/api/people/${v4()}/erase`, order)).status).toBe(404);
    expect((await bench.get(`/api/people/${personId}`)).status).toBe(200);
  });

  it("takes the person away, leaves one line, and later entries are told so", async () => {
    const { status, json } = await bench.post(url, order);
    expect([status, json]).toEqual([200, { entries: 3, photos: 0, accounts: 0, isTraceless: true }]);
    expect(await trail()).toMatchObject([
      {
        action: "erasePerson",
        accountId: nurse.id,
        objects: [person, { kind: "reason", id: "consentWithdrawn" }],
      },
    ]);
    expect((await bench.get(`/api/people/${personId}`)).json.error.code).toBe("noSuchPerson");
    expect((await bench.get("/api/people?text=edda")).json.people).toEqual([]);
    const late = await bench.post("/api/entries", { entries: [note()] });
    expect([late.status, late.json.error.code]).toEqual([409, "erased"]);
    expect(late.json.error.personIds).toEqual([personId]);
  });
});
