import type { Protocol, ProtocolKey } from "../protocol/index.ts";
import type { Answers, QuestionKey } from "./question.ts";

/** A limit as a number, or as the protocol's value. */
export type Limit = number | { protocol: ProtocolKey };

/**
 * When a row holds, as data. There is no "not": another answer can only add a sign, and so a missing answer can never
 * hide one that was given.
 */
export type Condition =
  | { yes: QuestionKey }
  | { is: QuestionKey; oneOf: readonly string[] }
  | { number: QuestionKey; atLeast: Limit }
  | { number: QuestionKey; moreThan: Limit }
  | { number: QuestionKey; lessThan: Limit }
  /** The stoma is at the most so many days old. Where nobody knows, it counts as new. */
  | { dayAtMost: Limit }
  | { all: readonly Condition[] }
  | { any: readonly Condition[] };

/** What a condition is held against. */
export interface Circumstances {
  answers: Answers;
  daysSinceSurgery: number | null;
  protocol: Protocol;
}

/** `unknown`: it depends on what was not asked. */
export type Verdict = "holds" | "fails" | "unknown";

export function verdictOn(condition: Condition, circumstances: Circumstances): Verdict {
  if ("all" in condition) return all(condition.all.map((part) => verdictOn(part, circumstances)));
  if ("any" in condition) return any(condition.any.map((part) => verdictOn(part, circumstances)));
  const { answers, daysSinceSurgery, protocol } = circumstances;
  if ("dayAtMost" in condition)
    return (daysSinceSurgery ?? 0) <= limitOf(condition.dayAtMost, protocol) ? "holds" : "fails";
  if ("yes" in condition) return verdict(answers[condition.yes], (answer) => answer === true);
  if ("is" in condition)
    return verdict(answers[condition.is], (answer) => condition.oneOf.includes(String(answer)));
  return verdict(answers[condition.number], (answer) => compares(Number(answer), condition, protocol));
}

function compares(
  value: number,
  condition: Extract<Condition, { number: QuestionKey }>,
  protocol: Protocol,
): boolean {
  if ("atLeast" in condition) return value >= limitOf(condition.atLeast, protocol);
  if ("moreThan" in condition) return value > limitOf(condition.moreThan, protocol);
  return value < limitOf(condition.lessThan, protocol);
}

export function limitOf(limit: Limit, protocol: Protocol): number {
  return typeof limit === "number" ? limit : protocol[limit.protocol];
}

function verdict<T>(answer: T | undefined, holds: (answer: T) => boolean): Verdict {
  if (answer === undefined) return "unknown";
  return holds(answer) ? "holds" : "fails";
}

function all(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes("fails")) return "fails";
  return verdicts.includes("unknown") ? "unknown" : "holds";
}

function any(verdicts: readonly Verdict[]): Verdict {
  if (verdicts.includes("holds")) return "holds";
  return verdicts.includes("unknown") ? "unknown" : "fails";
}

/** The questions a condition asks, in its order, each once. */
export function questionsIn(condition: Condition): QuestionKey[] {
  if ("all" in condition) return [...new Set(condition.all.flatMap(questionsIn))];
  if ("any" in condition) return [...new Set(condition.any.flatMap(questionsIn))];
  if ("yes" in condition) return [condition.yes];
  if ("is" in condition) return [condition.is];
  return "number" in condition ? [condition.number] : [];
}

/** The parts, without `all` and `any`, that hold: what a sign rests on. */
export function partsThatHold(condition: Condition, circumstances: Circumstances): Condition[] {
  const parts = "all" in condition ? condition.all : "any" in condition ? condition.any : null;
  if (parts) return parts.flatMap((part) => partsThatHold(part, circumstances));
  return verdictOn(condition, circumstances) === "holds" ? [condition] : [];
}
