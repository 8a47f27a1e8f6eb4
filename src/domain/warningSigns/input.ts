import { z } from "zod";
import { type ProtocolKey, protocolKeys } from "../protocol/index.ts";
import type { Condition, Limit } from "./condition.ts";
import { type Answers, type QuestionKey, questionKeys, questionOf } from "./question.ts";
import { stomaTypes, type WarningSign } from "./row.ts";
import type { WarningInput } from "./warningLevel.ts";

/** Deeper conditions than this nobody can read. */
const deepest = 6;

const keyOfKind = (kind: "yesNo" | "number" | "choice") =>
  z.enum(questionKeys.filter((key) => questionOf(key).kind === kind) as [QuestionKey, ...QuestionKey[]]);

const limit: z.ZodType<Limit> = z.union([
  z.number(),
  z.strictObject({ protocol: z.enum(protocolKeys as [ProtocolKey, ...ProtocolKey[]]) }),
]);

const simple = [
  z.strictObject({ yes: keyOfKind("yesNo") }),
  z
    .strictObject({ is: keyOfKind("choice"), oneOf: z.array(z.string()).min(1).max(20) })
    .superRefine(({ is, oneOf }, context) => {
      const choices = choicesOf(is);
      for (const [at, choice] of oneOf.entries())
        if (!choices.includes(choice))
          context.addIssue({
            code: "custom",
            path: ["oneOf", at],
            message: "is not one of the choices",
            params: { expected: choices.join(", ") },
          });
    }),
  z.strictObject({ number: keyOfKind("number"), atLeast: limit }),
  z.strictObject({ number: keyOfKind("number"), moreThan: limit }),
  z.strictObject({ number: keyOfKind("number"), lessThan: limit }),
  z.strictObject({ dayAtMost: limit }),
] as const;

/** A condition with at the most so many layers of `all` and `any`. */
function conditionOf(layers: number): z.ZodType<Condition> {
  if (layers === 0) return z.union(simple);
  const parts = z
    .array(conditionOf(layers - 1))
    .min(1)
    .max(20);
  return z.union([...simple, z.strictObject({ all: parts }), z.strictObject({ any: parts })]);
}

/** A row as the lead may edit it. Its words may name protocol values, and no others, in braces. */
export const warningSignSchema: z.ZodType<WarningSign> = z.strictObject({
  id: z.string().regex(/^[a-z][A-Za-z0-9]{1,60}$/),
  level: z.enum(["now", "sameDay", "nextContact"]),
  sign: words(),
  act: words(),
  stomaTypes: z.array(z.enum(stomaTypes)).min(1).optional(),
  when: conditionOf(deepest),
  mutedByIrrigation: z.boolean().optional(),
  source: z.string().trim().min(1).max(500),
  certainty: z.enum([
    "read in the source",
    "second hand",
    "from memory",
    "common practice, no source",
    "judgement",
  ]),
});

export const warningSignsSchema: z.ZodType<readonly WarningSign[]> = z
  .array(warningSignSchema)
  .min(1)
  .max(300)
  .superRefine((rows, context) => {
    for (const [at, { id }] of rows.entries())
      if (rows.findIndex((row) => row.id === id) < at)
        context.addIssue({
          code: "custom",
          path: [at, "id"],
          message: "is there twice",
          params: { expected: "each id once" },
        });
  });

export const answersSchema: z.ZodType<Answers> = z.strictObject(
  Object.fromEntries(questionKeys.map((key) => [key, answerTo(key).optional()])),
) as unknown as z.ZodType<Answers>;

export const warningSchema: z.ZodType<WarningInput> = z.strictObject({
  stomaType: z.enum(stomaTypes),
  daysSinceSurgery: z.number().min(-1).max(100_000).optional(),
  irrigates: z.boolean().optional(),
  answers: answersSchema,
  signs: warningSignsSchema.optional(),
});

function answerTo(key: QuestionKey) {
  const question = questionOf(key);
  if (question.kind === "yesNo") return z.boolean();
  if (question.kind === "number") return z.number().min(0).max(1e6);
  return z.enum(choicesOf(key) as [string, ...string[]]);
}

function choicesOf(key: QuestionKey): string[] {
  const question = questionOf(key);
  return question.kind === "choice" ? Object.keys(question.choices) : [];
}

function words() {
  return z
    .string()
    .trim()
    .min(1)
    .max(500)
    .superRefine((text, context) => {
      for (const [, key] of text.matchAll(/\{(.*?)\}/g))
        if (!(protocolKeys as string[]).includes(key!))
          context.addIssue({
            code: "custom",
            message: "names a value in braces that the protocol does not have",
            params: { expected: "a protocol value, such as {noOutputCrampHours}" },
          });
    });
}
