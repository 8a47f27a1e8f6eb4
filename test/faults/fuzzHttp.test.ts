import fc from "fast-check";
import type { InjectOptions } from "fastify";
import { pino } from "pino";
import { v4 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { rulesAt } from "../../src/server/access/index.ts";
import { clinicEntry, day, draft, entry, round, samplePerson } from "../record/samples.ts";
import { askerOf, signInDirectly, type TestBench, testBench } from "../server/bench.ts";
import { fuzz, fuzzSeed, hostileBytes, hostileValue, innards, ofSchema, spoiled } from "./hostile.ts";

const edda = samplePerson();
const { personId, stomaId, about } = edda;
const measured = entry("measured", round(32), { ...about, at: day("2026-11-24") });

interface Route {
  method: InjectOptions["method"];
  url: string;
  /** Documents that its body may be. */
  documents: fc.Arbitrary<unknown>;
  queries: string[];
}

let bench: TestBench;
let routes: Route[];
const unforeseen: string[] = [];
beforeAll(async () => {
  const log = pino(
    { level: "error" },
    { write: (line: string) => line.includes("unforeseen") && unforeseen.push(line) },
  );
  bench = await testBench([clinicEntry(), ...edda.entries, measured], { log });
  routes = routesOf((await bench.get("/api/openapi.json")).json);
});
afterAll(() => bench.close());

/** Every route of the rules, with what the description of the interface says of its input. */
function routesOf(description: { paths: Record<string, Record<string, Operation>> }): Route[] {
  return Object.keys(rulesAt.bench).map((rule) => {
    const [method = "GET", url = ""] = rule.split(" ");
    const operation = description.paths[url.replace(/:(\w+)/g, "{$1}")]?.[method.toLowerCase()];
    const schema = operation?.requestBody?.content["application/json"]?.schema;
    const documents =
      url === "/api/entries"
        ? drafts
        : schema
          ? fc.oneof(ofSchema(schema), ofSchema(schema).chain(spoiled))
          : hostileValue;
    const queries = (operation?.parameters ?? [])
      .filter(({ in: where }) => where === "query")
      .map(({ name }) => name);
    return { method: method as Route["method"], url, documents, queries };
  });
}

interface Operation {
  requestBody?: { content: Record<string, { schema: Record<string, unknown> }> };
  parameters?: { in: string; name: string }[];
}

/** Entries that are nearly right. */
const drafts = fc
  .constantFrom(
    draft("measured", round(33), { ...about, at: day("2026-11-24") }),
    draft("noted", { text: "Called back." }, { personId }),
    draft("person", { name: "Somebody" }, { personId: v4() }),
    draft(
      "noted",
      { text: "better" },
      { personId, corrects: { id: measured.id, as: "replace" }, reason: "misread" },
    ),
  )
  .chain((one) => spoiled({ entries: [one] }));

const idOf: Record<string, string[]> = { personId: [personId], stomaId: [stomaId] };
const param = (name: string) =>
  fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom(...(idOf[name] ?? [v4()]), v4()) },
    fc.string({ unit: "binary", maxLength: 30 }).map(encoded),
    fc.constantFrom("%", "%00", "..%2f..", "__proto__", "x".repeat(500), "%F0%9F"),
  );

/** A request to a route, right in some parts and wrong in others. */
const requests = (route: Route): fc.Arbitrary<InjectOptions> => {
  const names = [...route.url.matchAll(/:(\w+)/g)].map(([, name]) => name!);
  return fc
    .record({
      params: fc.tuple(...names.map(param)),
      query: fc.dictionary(
        fc.constantFrom(...route.queries, "x", "__proto__"),
        fc.oneof(
          fc.string({ unit: "binary", maxLength: 30 }),
          fc.constantFrom("", "1e9", "-1", "[]", "\u0000"),
        ),
        { maxKeys: 3 },
      ),
      body: fc.oneof(
        {
          weight: 4,
          arbitrary: route.documents.map((document) => Buffer.from(JSON.stringify(document) ?? "")),
        },
        hostileBytes,
      ),
      type: fc.oneof(
        { weight: 5, arbitrary: fc.constant("application/json") },
        fc.constantFrom(
          "",
          "text/plain",
          "application/json; charset=utf-7",
          "multipart/form-data",
          "multipart/form-data; boundary=b",
          "application/x-www-form-urlencoded",
          "application/octet-stream",
          "\u00ff",
        ),
      ),
      more: fc.dictionary(
        fc.constantFrom(
          "content-encoding",
          "accept-encoding",
          "origin",
          "cookie",
          "range",
          "if-none-match",
          "expect",
        ),
        fc.constantFrom(
          "gzip",
          "null",
          "identity;q=0",
          "bytes=0-9999999999",
          "roundel=x",
          '"x"',
          "100-continue",
        ),
        { maxKeys: 1 },
      ),
      signedIn: fc.oneof({ weight: 5, arbitrary: fc.constant(true) }, fc.constant(false)),
      ip: fc.ipV4(),
    })
    .map(({ params, query, body, type, more, signedIn, ip }) => {
      const [...values] = params;
      const path = route.url.replace(/:\w+/g, () => values.shift() as string).replace("*", "index.html");
      const asked = Object.entries(query).map(([name, value]) => `${encoded(name)}=${encoded(value)}`);
      const hasBody = route.method !== "GET";
      return {
        method: route.method,
        url: asked.length > 0 ? `${path}?${asked.join("&")}` : path,
        headers: {
          ...(hasBody ? { "content-type": type } : {}),
          ...more,
          ...(signedIn ? { signedin: "1" } : {}),
        },
        remoteAddress: ip,
        ...(hasBody ? { payload: body } : {}),
      };
    });
};

/** Text that is no Unicode cannot stand in an address. */
function encoded(text: string): string {
  return encodeURIComponent(Buffer.from(text).toString());
}

describe("whatever is sent to any route", () => {
  it(`is answered, never with a failure, and tells nothing of the inside (seed ${fuzzSeed})`, async () => {
    const seen = new Map<string, number>();
    const statuses = new Map<number, number>();
    const any = fc
      .nat(routes.length - 1)
      .chain((index) => requests(routes[index]!).map((request) => ({ index, request })));
    const isAnswered = async ({ index, request }: { index: number; request: InjectOptions }) => {
      const route = routes[index]!;
      const answer = await ask(request);
      const name = `${route.method} ${route.url}`;
      seen.set(name, (seen.get(name) ?? 0) + 1);
      statuses.set(answer.statusCode, (statuses.get(answer.statusCode) ?? 0) + 1);
      expect([name, answer.statusCode, answer.statusCode < 500 ? "" : answer.payload]).toEqual([
        name,
        answer.statusCode,
        "",
      ]);
      if (answer.statusCode >= 400) {
        const { error } = JSON.parse(answer.payload);
        expect(typeof error.sentence).toBe("string");
        expect(error.sentence).not.toMatch(innards);
        for (const { problem, expected } of error.faults ?? [])
          expect(`${problem} ${expected}`).not.toMatch(innards);
        expect(answer.payload.length).toBeLessThan(100_000);
      }
    };
    for (const [index, route] of routes.entries()) {
      for (const request of fc.sample(requests(route), { numRuns: 2, seed: fuzzSeed })) {
        await isAnswered({ index, request });
      }
    }
    await fuzz(any, 15, isAnswered);
    expect(unforeseen).toEqual([]);
    const asked = [...seen.values()].reduce((sum, times) => sum + times, 0);
    const told = [...statuses].sort().map(([status, times]) => `${status}: ${times}`);
    console.log(`${asked} requests to ${seen.size} of ${routes.length} routes; ${told.join(", ")}`);
    expect(seen.size).toBe(routes.length);
    expect(await bench.record.audit.verify(edda.entries[0]!.clinicId)).toMatchObject({ ok: true });
  }, 3_600_000);
});

/** Each request has a session of its own: some of them end it, and none may ask too often. */
async function ask({ headers = {}, ...request }: InjectOptions) {
  const { signedin, ...rest } = headers as Record<string, string>;
  const asker = askerOf(bench.bench);
  if (signedin) await signInDirectly(bench.record, bench.lead!, asker);
  const cookie = [...asker.cookies].map(([name, value]) => `${name}=${value}`).join("; ");
  return bench.bench.inject({ ...request, headers: { ...(cookie ? { cookie } : {}), ...rest } });
}
