import { parseInput } from "../../domain/fault.ts";
import { readJson } from "../input/index.ts";
import type { AnyTopic } from "./topics.ts";

/** The answer to one JSON document, as JSON. @throws {InputError} with every fault of the input */
export function answer(topic: AnyTopic, text: string, indent = 0): string {
  return asJson(topic.run(parseInput(topic.schema, readJson(text))), indent);
}

/** JSON has no NaN and no infinity, and would write null for them: a figure nobody computed. */
export function asJson(value: unknown, indent = 0): string {
  return JSON.stringify(
    value,
    (key, part: unknown) => {
      if (typeof part === "number" && !Number.isFinite(part)) {
        throw new Error(`the result holds ${part} at ${JSON.stringify(key)}; please report this`);
      }
      return part;
    },
    indent,
  );
}
