import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { type TestBench, testBench } from "../../test/server/bench.ts";
import { rulesAt } from "./access/index.ts";
import { sessionSchema } from "./schemas.ts";

let bench: TestBench;
// biome-ignore lint/suspicious/noExplicitAny: the description is looked into as a reader would
let described: any;
beforeAll(async () => {
  bench = await testBench();
  described = (await bench.anonymous().get("/api/openapi.json")).json;
});
afterAll(() => bench.close());

const hidden = ["GET /*", "GET /api/openapi.json"];
const routes = Object.keys(rulesAt.bench).filter((route) => !hidden.includes(route));

/** What the description says of a route. */
function operation(route: string) {
  const [method, url] = route.split(" ") as [string, string];
  return described.paths[url.replace(/:(\w+)/g, "{$1}")]?.[method.toLowerCase()];
}

describe("the description of the interface", () => {
  it("names every route and no other", () => {
    expect(described.openapi).toMatch(/^3\./);
    const named = Object.entries<object>(described.paths).flatMap(([url, methods]) =>
      Object.keys(methods).map((method) => `${method.toUpperCase()} ${url.replace(/\{(\w+)\}/g, ":$1")}`),
    );
    expect(named.sort()).toEqual([...routes].sort());
  });

  it.each(routes)("%s says what it is for, what stands in its address and how it fails", (route) => {
    const { summary, parameters = [], responses } = operation(route);
    expect(summary).toMatch(/^[A-Z].{10,}[^.]$/);
    const inAddress = [...route.matchAll(/:(\w+)/g)].map(([, name]) => name);
    const named = parameters.filter((one: { in: string }) => one.in === "path");
    expect(named.map(({ name }: { name: string }) => name).sort()).toEqual(inAddress.sort());
    expect(responses.default.content["application/json"].schema.properties.error).toBeDefined();
  });

  it.each(
    routes.filter((route) => /sign-in|sign-out|set-up|confirm|account|join|recover|session/.test(route)),
  )("%s says what it answers when all is well, and what a body holds", (route) => {
    const { responses, requestBody } = operation(route);
    expect(Object.keys(responses).filter((status) => /^2/.test(status))).toHaveLength(1);
    if (!route.startsWith("GET")) expect(requestBody.content["application/json"].schema.type).toBe("object");
  });

  it("of a body lists what may not be left out", () => {
    const sheet = operation("POST /api/people/:personId/stomas/:stomaId/cutting-sheet");
    const { schema } = sheet.requestBody.content["application/json"];
    expect(schema.required).toEqual(["adviceId", "measuredId", "clearanceMm"]);
  });

  it("is what is sent: answers hold no field that it does not name, and every one that it does", async () => {
    for (const asker of [bench, bench.anonymous()]) {
      const { json } = await asker.get("/api/session");
      expect(z.strictObject(sessionSchema.shape).safeParse(json)).toMatchObject({ success: true });
    }
    for (const url of ["/api/account", "/api/accounts"]) {
      const { json } = await bench.get(url);
      const { schema } = operation(`GET ${url}`).responses["200"].content["application/json"];
      expect(keysOf(json)).toEqual(keysNamed(schema));
    }
  });
});

/** Names of all fields, lists by their first line. */
function keysOf(value: unknown, path = ""): string[] {
  if (Array.isArray(value)) return value.length > 0 ? keysOf(value[0], `${path}[]`) : [];
  if (value === null || typeof value !== "object") return [path];
  return Object.entries(value)
    .flatMap(([key, inner]) => keysOf(inner, `${path}.${key}`))
    .sort();
}

/** The same as a schema names them; a list that is empty in the answer is left out of both. */
function keysNamed(schema: { type?: string; properties?: object; items?: object }, path = ""): string[] {
  if (schema.type === "array") {
    const isEmpty = path === ".passkeys" || path === ".links";
    return isEmpty ? [] : keysNamed(schema.items ?? {}, `${path}[]`);
  }
  if (!schema.properties) return [path];
  return Object.entries(schema.properties)
    .flatMap(([key, inner]) => keysNamed(inner, `${path}.${key}`))
    .sort();
}
