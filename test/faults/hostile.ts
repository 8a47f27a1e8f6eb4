import fc from "fast-check";

/** Values that programs stumble over. */
export const hostileValue: fc.Arbitrary<unknown> = fc.oneof(
  fc.constantFrom<unknown>(
    null,
    true,
    "",
    " ",
    "\u0000",
    "\ud800",
    "\u202e",
    "__proto__",
    "constructor",
    "toString",
    "'; drop table entry; --",
    "../../../../etc/passwd",
    "%00%0a",
    "{{7*7}}",
    "<script>alert(1)</script>",
    "0000-00-00",
    "2026-02-30",
    "+275760-09-13T00:00:00.001Z",
    "9999-12-31",
    "1e999",
    "NaN",
  ),
  fc.constantFrom<unknown>(0, -0, -1, 0.1, 1e-320, 1e21, 1e308, -1e308, 2 ** 31, 2 ** 53, -(2 ** 63)),
  fc.double(),
  fc.string({ unit: "binary", maxLength: 60 }),
  fc.integer({ min: 1, max: 12 }).map((power) => "x".repeat(2 ** power)),
  fc.integer({ min: 1, max: 200 }).map((depth) => nested(depth)),
  fc.constant([]),
  fc.constant({}),
  fc.array(fc.constant(0), { minLength: 300, maxLength: 1000 }),
  fc.constant(JSON.parse('{"__proto__":{"admin":true}}')),
  fc.jsonValue({ maxDepth: 3 }),
);

function nested(depth: number): unknown {
  let value: unknown = 1;
  for (let level = 0; level < depth; level += 1) value = level % 2 === 0 ? [value] : { a: value };
  return value;
}

/** A document that works, with something hostile in one or several of its places. */
export function spoiled(document: unknown): fc.Arbitrary<unknown> {
  const places = placesIn(document);
  const spoiling = fc.record({ place: fc.constantFrom(...places), value: hostileValue });
  return fc
    .array(spoiling, { minLength: 1, maxLength: 3 })
    .map((spoilings) =>
      spoilings.reduce((spoilt, { place, value }) => withValue(spoilt, place, value), document),
    );
}

/** What a value becomes that stays of its kind. */
const bends: ((value: unknown) => unknown)[] = [
  (value) => (typeof value === "number" ? 0 : value),
  (value) => (typeof value === "number" ? -value : value),
  (value) => (typeof value === "number" ? value / 3 : value),
  (value) => (typeof value === "number" ? value * 7 : value),
  (value) => (typeof value === "number" ? Math.round(value) + 1 : value),
  (value) => (typeof value === "number" ? value * 1e-9 : value),
  (value) => (typeof value === "number" ? value * 1e6 : value),
  (value) => (Array.isArray(value) ? [] : value),
  (value) => (Array.isArray(value) ? value.slice(0, 1) : value),
  (value) => (Array.isArray(value) ? [...value].reverse() : value),
  (value) => (Array.isArray(value) ? [...value, ...value] : value),
  (value) => (Array.isArray(value) ? Array(40).fill(value).flat().slice(0, 3000) : value),
  (value) => (typeof value === "boolean" ? !value : value),
  (value) => (typeof value === "string" ? value.replace(/^2026/, "2024") : value),
  () => undefined,
];

/** A document that works, bent in several places: much of it still gets past the first look. */
export function bent(document: unknown): fc.Arbitrary<unknown> {
  const bending = fc.record({
    place: fc.constantFrom(...placesIn(document)),
    bend: fc.constantFrom(...bends),
  });
  return fc
    .array(bending, { minLength: 1, maxLength: 4 })
    .map((all) => all.reduce((bentSoFar, { place, bend }) => withBent(bentSoFar, place, bend), document));
}

type Place = (string | number)[];

function placesIn(value: unknown, at: Place = []): Place[] {
  if (value === null || typeof value !== "object") return [at];
  return [at, ...Object.entries(value).flatMap(([key, inner]) => placesIn(inner, [...at, key]))];
}

function withValue(document: unknown, place: Place, value: unknown): unknown {
  return withBent(document, place, () => value);
}

function withBent(document: unknown, [key, ...rest]: Place, bend: (value: unknown) => unknown): unknown {
  if (key === undefined) return bend(document);
  if (document === null || typeof document !== "object") return document;
  const copy = Array.isArray(document) ? [...document] : { ...document };
  const at = copy as Record<string | number, unknown>;
  at[key] = withBent(at[key], rest, bend);
  return copy;
}

type JsonSchema = {
  [key: string]: unknown;
  type?: string | string[];
  properties?: Record<string, JsonSchema>;
  required?: string[];
  items?: JsonSchema | boolean;
};

/** Documents of a schema as it stands in the description of the interface. Patterns are left to chance. */
export function ofSchema(schema: JsonSchema, depth = 0): fc.Arbitrary<unknown> {
  if (depth > 6) return fc.constant(null);
  if (schema.const !== undefined) return fc.constant(schema.const);
  if (Array.isArray(schema.enum)) return fc.constantFrom(...(schema.enum as unknown[]));
  const choices = (schema.anyOf ?? schema.oneOf) as JsonSchema[] | undefined;
  if (choices) return fc.oneof(...choices.map((one) => ofSchema(one, depth + 1)));
  const type = Array.isArray(schema.type) ? schema.type[0] : schema.type;
  if (type === "object") return objectOf(schema, depth);
  if (type === "array") {
    const items = typeof schema.items === "object" ? ofSchema(schema.items, depth + 1) : hostileValue;
    return fc.array(items, { maxLength: 4 });
  }
  return plain[type ?? ""]?.(schema) ?? hostileValue;
}

const plain: Record<string, (schema: JsonSchema) => fc.Arbitrary<unknown>> = {
  string: ({ format }) =>
    format === "uuid"
      ? fc.uuid()
      : fc.oneof(fc.string({ maxLength: 40 }), fc.string({ unit: "binary", maxLength: 20 })),
  integer: () => fc.integer(),
  number: () => fc.double(),
  boolean: () => fc.boolean(),
  null: () => fc.constant(null),
};

function objectOf({ properties = {}, required = [] }: JsonSchema, depth: number): fc.Arbitrary<unknown> {
  const fields = Object.entries(properties).map(([key, inner]) => [key, ofSchema(inner, depth + 1)] as const);
  return fc.record(Object.fromEntries(fields), { requiredKeys: required.filter((key) => key in properties) });
}

/** Bodies that are no document. */
export const hostileBytes: fc.Arbitrary<Buffer> = fc.oneof(
  fc.uint8Array({ maxLength: 300 }).map((bytes) => Buffer.from(bytes)),
  fc
    .constantFrom(
      "",
      "{",
      "null",
      "[[[[",
      '{"a":1}{"b":2}',
      "\ufeff{}",
      '{"__proto__":{"x":1},"entries":[]}',
      '{"constructor":{"prototype":{"x":1}}}',
      `{"a":${"[".repeat(20_000)}${"]".repeat(20_000)}}`,
      '{"a":1e99999}',
      '{"a":"\\ud800"}',
      "a=1&b=2",
    )
    .map((text) => Buffer.from(text)),
  fc.constant(Buffer.from([0x7b, 0x22, 0xff, 0xfe, 0x22, 0x3a, 0x31, 0x7d])),
  fc.integer({ min: 1, max: 300 }).map((kilobytes) => Buffer.alloc(kilobytes * 1024, "[")),
);

/** What no answer may hold: where the program lies, what it is made of, how it asks its database. */
export const innards =
  /node_modules|node:internal|\bat [\w.<>]+ \(|\.[cm]?[jt]s:\d+|SqliteError|SQLITE_|sqlite|kysely|fastify|select .+ from|insert into|\/work\/|\/tmp\/|\/home\/|\/root\//i;

export const fuzzSeed = Number(process.env.FUZZ_SEED ?? Date.now() % 2 ** 31);

/** Inputs of one round; a failure names the round's seed. */
const runsARound = 50;

/**
 * Holds a property against inputs of its own: in the suite for some seconds, in a long run for `FUZZ_RUNS` inputs.
 * (fast-check's own time limit takes a failure that it is still shrinking for a success.)
 */
export async function fuzz<T>(
  inputs: fc.Arbitrary<T>,
  seconds: number,
  holds: (input: T) => Promise<void>,
): Promise<void> {
  const asked = process.env.FUZZ_RUNS;
  const endMs = Date.now() + seconds * 1000;
  let runs = 0;
  for (let round = 0; asked ? runs < Number(asked) : Date.now() < endMs; round += 1) {
    await fc.assert(fc.asyncProperty(inputs, holds), { numRuns: runsARound, seed: fuzzSeed + round });
    runs += runsARound;
  }
}
