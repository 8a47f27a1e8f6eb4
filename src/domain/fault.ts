import type { z } from "zod";

/** One thing wrong with an input, as data: the sentence comes from {@link faultSentence}. */
export interface Fault {
  /** Dotted path of the field, "" for the whole input. */
  path: string;
  problem: string;
  got: unknown;
  expected: string;
}

/** Thrown by domain functions that refuse an input; carries every fault found, never only the first. */
export class InputError extends Error {
  readonly faults: readonly Fault[];
  constructor(faults: readonly Fault[]) {
    super(faults.map(faultSentence).join("\n"));
    this.name = "InputError";
    this.faults = faults;
  }
}

/** Refuses an input for one reason. */
export function refuse(path: string, problem: string, got: unknown, expected: string): never {
  throw new InputError([{ path, problem, got, expected }]);
}

/** `path.to.field: what is wrong (got …, expected …)` */
export function faultSentence({ path, problem, got, expected }: Fault): string {
  return `${path || "input"}: ${problem} (got ${shown(got)}, expected ${expected})`;
}

/** A value as a person may see it in an error: short, on one line. */
export function shown(value: unknown): string {
  if (value === undefined) return "nothing";
  if (typeof value === "number") return String(value);
  const json = jsonOf(value);
  return json.length > 60 ? `${json.slice(0, 57)}...` : json;
}

/** What a hostile writer nests too deep for JSON must not turn a refusal into a failure. */
function jsonOf(value: unknown): string {
  try {
    return JSON.stringify(value) ?? String(value);
  } catch {
    return "something that cannot be shown";
  }
}

/** Parses with a zod schema; throws {@link InputError} with a fault for each issue. */
export function parseInput<T>(schema: z.ZodType<T>, input: unknown): T {
  const result = schema.safeParse(input);
  if (result.success) return result.data;
  throw new InputError(faultsOf(result.error, input));
}

/** Turns zod issues into faults, looking up the offending value by its path. */
export function faultsOf(error: z.ZodError, input: unknown): Fault[] {
  return error.issues.flatMap((issue) => {
    if (issue.code === "unrecognized_keys") {
      return issue.keys.map((key) => ({
        path: dotted([...issue.path, key]),
        problem: "is not a known field",
        got: valueAt(input, [...issue.path, key]),
        expected: "only documented fields",
      }));
    }
    const got = valueAt(input, issue.path);
    return [{ path: dotted(issue.path), problem: problemOf(issue, got), got, expected: expectedOf(issue) }];
  });
}

function problemOf(issue: z.core.$ZodIssue, got: unknown): string {
  if (got === undefined) return "is missing";
  switch (issue.code) {
    case "invalid_type":
      return "is of the wrong type";
    case "too_small":
      return "is too small";
    case "too_big":
      return "is too large";
    case "invalid_value":
      return "is not one of the choices";
    case "custom":
      return issue.message;
    default:
      return "is not valid";
  }
}

function expectedOf(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return issue.expected;
    case "too_small":
      return `${issue.inclusive ? "at least" : "more than"} ${issue.minimum}${sized(issue.origin)}`;
    case "too_big":
      return `${issue.inclusive ? "at most" : "less than"} ${issue.maximum}${sized(issue.origin)}`;
    case "invalid_value":
      return issue.values.map((value) => JSON.stringify(value)).join(" or ");
    case "invalid_format":
      return issue.format;
    case "custom":
      return typeof issue.params?.expected === "string" ? issue.params.expected : "a valid value";
    default:
      return issue.message;
  }
}

function sized(origin: string): string {
  return origin === "array" ? " items" : origin === "string" ? " characters" : "";
}

function dotted(path: readonly PropertyKey[]): string {
  return path.map(String).join(".");
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      value === null || value === undefined ? undefined : (value as Record<PropertyKey, unknown>)[key],
    input,
  );
}
