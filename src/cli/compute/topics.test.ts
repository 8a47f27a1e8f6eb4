import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { InputError } from "../../domain/fault.ts";
import { textOf } from "../input/index.ts";
import { answer } from "./answer.ts";
import { type AnyTopic, allTopics, topicNames } from "./topics.ts";

const topics = await allTopics();

/** Everything but an answer or a refusal is a fault of ours, and fails the test. */
function answeredOrRefused(topic: AnyTopic, input: string | Uint8Array): "answered" | "refused" {
  try {
    const text = typeof input === "string" ? input : textOf(input);
    JSON.parse(answer(topic, text));
    return "answered";
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.faults.length).toBeGreaterThan(0);
    return "refused";
  }
}

it("topics bear the names by which they are asked for", () => {
  expect(topics.map(({ name }) => name)).toEqual(topicNames);
});

describe.each(topics.map((topic) => [topic.name, topic] as const))("the topic %s", (_name, topic) => {
  it("answers its own example", () => {
    expect(answeredOrRefused(topic, JSON.stringify(topic.example))).toBe("answered");
  });

  it("says what it is in one line", () => {
    expect(topic.summary).toMatch(/^\S.{10,}[^\n]$/);
  });

  it("refuses a field nobody documented", () => {
    const input = { ...(topic.example as object), colour: "red" };
    expect(answeredOrRefused(topic, JSON.stringify(input))).toBe("refused");
  });

  it("answers or refuses its example with any part replaced by anything", () => {
    const places = pathsOf(topic.example);
    fc.assert(
      fc.property(fc.constantFrom(...places), hostileValue, (path, value) => {
        answeredOrRefused(topic, JSON.stringify(replaced(topic.example, path, value)));
      }),
      { numRuns: 150, seed: 20261125 },
    );
  });

  it("refuses bytes that are no document, and answers or refuses any that are", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 200 }), (bytes) => {
        answeredOrRefused(topic, bytes);
      }),
      { numRuns: 200, seed: 20261125 },
    );
    fc.assert(
      fc.property(fc.json(), (json) => {
        answeredOrRefused(topic, json);
      }),
      { numRuns: 200, seed: 20261125 },
    );
  });
});

/** Numbers of a size and at the ends of what JSON can say, and values of every other type. */
const hostileValue = fc.oneof(
  fc.constantFrom(0, -0, -1, 1e-300, 5e-324, 1e9, 1e15, 1e300, 1.7976931348623157e308, -1e308, 2 ** 53),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.integer(),
  fc.double({ noNaN: true, min: -10_000, max: 10_000 }),
  fc.constantFrom(null, true, "", "1", [], {}, [[]], [0, 0], [[0, 0]], { outline: [] }),
  fc.jsonValue({ maxDepth: 3 }),
);

type Path = (string | number)[];

function pathsOf(value: unknown, path: Path = []): Path[] {
  if (value === null || typeof value !== "object") return [path];
  const inner = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
  return [path, ...inner.flatMap(([key, part]) => pathsOf(part, [...path, key]))];
}

function replaced(value: unknown, [key, ...rest]: Path, by: unknown): unknown {
  if (key === undefined) return by;
  const copy = structuredClone(value) as Record<string | number, unknown>;
  copy[key] = replaced(copy[key], rest, by);
  return copy;
}
