import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { clinicEntry, clinicId, now, samplePerson } from "../../../test/record/samples.ts";
import {
  type Asker,
  askerOf,
  makeAccount,
  signInDirectly,
  type TestBench,
  testBench,
} from "../../../test/server/bench.ts";
import { rulesAt } from "../access/index.ts";
import { type Bench, buildHome } from "../index.ts";

const edda = samplePerson();
const ulf = samplePerson();

let bench: TestBench;
let home: Bench;
beforeAll(async () => {
  bench = await testBench([clinicEntry(), ...edda.entries, ...ulf.entries]);
  home = buildHome({ record: bench.record, now: () => now });
  await home.ready();
});
afterAll(async () => {
  await home.close();
  await bench.close();
});

async function atHome(role: "person" | "helper", personId = edda.personId): Promise<Asker> {
  const asker = askerOf(home);
  await signInDirectly(bench.record, await makeAccount(bench.record, { role, personId }), asker);
  return asker;
}

describe("the home log's own address", () => {
  it("knows nothing of the bench's routes", async () => {
    const asker = await atHome("person");
    for (const route of Object.keys(rulesAt.bench)) {
      const [method, url] = route.replace(/:\w+/g, edda.personId).split(" ") as [string, string];
      const { status } =
        method === "GET" ? await asker.get(url) : await asker[method.toLowerCase() as "post"](url, {});
      expect([route, status]).toEqual([route, 404]);
    }
  });

  it("tells without a session that there is none, and nothing of anybody", async () => {
    const { json } = await askerOf(home).get("/api/home/session");
    expect(json).toEqual({ signedIn: false, account: null, programVersion: "0.0.1" });
    expect((await askerOf(home).get("/api/home/record")).json.error.code).toBe("signInFirst");
  });

  it.each(["person", "helper"] as const)("shows a %s their own record and nobody else's", async (role) => {
    const asker = await atHome(role);
    expect((await asker.get("/api/home/session")).json).toMatchObject({ signedIn: true, account: { role } });
    const { text, json } = await asker.get("/api/home/record");
    expect(json.entries).toHaveLength(edda.entries.length);
    expect(text).not.toContain(ulf.personId);
    for (const query of [`?personId=${ulf.personId}`, `/${ulf.personId}`]) {
      expect((await asker.get(`/api/home/record${query}`)).text).not.toContain(ulf.personId);
    }
  });

  it("shows nothing where the account has no person, or another clinic's", async () => {
    const lost = askerOf(home);
    await signInDirectly(bench.record, await makeAccount(bench.record, { role: "person" }), lost);
    expect((await lost.get("/api/home/record")).status).toBe(404);
    const stranger = await makeAccount(bench.record, {
      role: "person",
      personId: edda.personId,
      clinicId: edda.personId,
    });
    const asker = askerOf(home);
    await signInDirectly(bench.record, stranger, asker);
    expect((await asker.get("/api/home/record")).json.entries ?? []).toEqual([]);
    expect(clinicId).not.toBe(stranger.clinicId);
  });

  it("is signed out of", async () => {
    const asker = await atHome("person");
    expect((await asker.post("/api/home/sign-out")).status).toBe(204);
    expect((await asker.get("/api/home/record")).status).toBe(401);
  });
});

describe("a session of one address", () => {
  it("is none at the other, even where its cookie is renamed", async () => {
    const person = await atHome("person");
    const secret = person.cookies.get("roundel-home")!;
    const moved = bench.anonymous();
    moved.cookies.set("roundel", secret);
    expect((await moved.get("/api/people")).json.error.code).toBe("signInFirst");
    const lead = askerOf(home);
    lead.cookies.set("roundel-home", bench.cookies.get("roundel")!);
    expect((await lead.get("/api/home/record")).json.error.code).toBe("signInFirst");
  });
});
