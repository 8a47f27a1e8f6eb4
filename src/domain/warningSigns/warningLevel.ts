import { type Level, levels, type Note, note } from "../note.ts";
import {
  defaultProtocol,
  type Protocol,
  type ProtocolKey,
  protocolDefinition,
  protocolKeys,
} from "../protocol/index.ts";
import { type Circumstances, partsThatHold, questionsIn, verdictOn } from "./condition.ts";
import { type Answers, type QuestionKey, questionOf } from "./question.ts";
import type { StomaType, WarningSign } from "./row.ts";
import { warningSigns } from "./rows/index.ts";

export interface WarningInput {
  stomaType: StomaType;
  /** Left out where nobody knows: then the stoma counts as new. */
  daysSinceSurgery?: number;
  /** A colostomy that is irrigated rests in between: no output alone is no sign. */
  irrigates?: boolean;
  /** What was answered, and the log's own figures; a question that was not asked is left out. */
  answers: Answers;
  /** The clinic's own rows instead of those that come with the program. */
  signs?: readonly WarningSign[];
}

/** A sign that holds. */
export interface Sign {
  id: string;
  level: Exclude<Level, "none">;
  sign: string;
  act: string;
  /** The answers that it rests on. */
  because: { question: QuestionKey; answer: boolean | number | string }[];
  source: string;
  certainty: WarningSign["certainty"];
}

export interface WarningResult {
  /** `none` only where everything that could raise a level was asked; null where nothing holds and something was not. */
  level: Level | null;
  /** Most urgent first; within a level in the order of the rows. */
  signs: Sign[];
  /** Questions without an answer that could raise the level, and how far; most urgent first. */
  notAsked: { question: QuestionKey; ask: string; couldRaiseTo: Exclude<Level, "none"> }[];
  notes: Note[];
}

/** Holds every row for this stoma against what is known. One sign to act on now is enough. */
export function warningLevel(input: WarningInput, protocol: Protocol = defaultProtocol): WarningResult {
  const circumstances: Circumstances = {
    answers: input.answers,
    daysSinceSurgery: input.daysSinceSurgery ?? null,
    protocol,
  };
  const rows = (input.signs ?? warningSigns)
    .filter(({ stomaTypes }) => stomaTypes === undefined || stomaTypes.includes(input.stomaType))
    .filter(({ mutedByIrrigation }) => !(mutedByIrrigation && input.irrigates === true));
  const signs = rows
    .filter(({ when }) => verdictOn(when, circumstances) === "holds")
    .map((row) => signOf(row, circumstances))
    .sort(byLevel);
  const notAsked = notAskedIn(rows, signs[0]?.level ?? "none", circumstances);
  return {
    level: signs[0]?.level ?? (notAsked.length === 0 ? "none" : null),
    signs,
    notAsked,
    notes: notesOn(input, notAsked.length),
  };
}

function signOf(row: WarningSign, circumstances: Circumstances): Sign {
  const { answers, protocol } = circumstances;
  const asked = partsThatHold(row.when, circumstances).flatMap(questionsIn);
  return {
    id: row.id,
    level: row.level,
    sign: withLimits(row.sign, protocol),
    act: row.act,
    because: [...new Set(asked)].map((question) => ({ question, answer: answers[question]! })),
    source: row.source,
    certainty: row.certainty,
  };
}

/** Only rows above the level reached can still raise it. */
function notAskedIn(
  rows: readonly WarningSign[],
  reached: Level,
  circumstances: Circumstances,
): WarningResult["notAsked"] {
  const open = rows
    .filter(({ level }) => levels.indexOf(level) < levels.indexOf(reached))
    .filter(({ when }) => verdictOn(when, circumstances) === "unknown")
    .sort(byLevel);
  const raised = new Map<QuestionKey, WarningSign["level"]>();
  for (const { when, level } of open)
    for (const question of questionsIn(when))
      if (circumstances.answers[question] === undefined && !raised.has(question)) raised.set(question, level);
  return [...raised].map(([question, couldRaiseTo]) => ({
    question,
    ask: questionOf(question).ask,
    couldRaiseTo,
  }));
}

/** Puts the protocol's values, with their units, into a row's words. */
export function withLimits(words: string, protocol: Protocol): string {
  return words.replace(/\{(\w+)\}/g, (whole, key: string) =>
    isProtocolKey(key) ? quantity(protocol[key], protocolDefinition(key).unit) : whole,
  );
}

function isProtocolKey(key: string): key is ProtocolKey {
  return (protocolKeys as string[]).includes(key);
}

function quantity(value: number, unit: string): string {
  const shown = String(Math.round(value * 100) / 100);
  if (unit.endsWith("/day")) return `${shown} ${unit.slice(0, -4)} in a day`.replace("emptyings", "times");
  if (value === 1 && unit.endsWith("s")) return `${shown} ${unit.slice(0, -1)}`;
  return `${shown} ${unit}`;
}

function byLevel(a: { level: Level }, b: { level: Level }): number {
  return levels.indexOf(a.level) - levels.indexOf(b.level);
}

function notesOn({ irrigates }: WarningInput, notAsked: number): Note[] {
  return [
    ...(notAsked > 0
      ? [
          note(
            "notAllAsked",
            `${notAsked} ${notAsked === 1 ? "question that could raise the level was" : "questions that could raise the level were"} not asked. What was not asked does not mean well.`,
            { notAsked },
          ),
        ]
      : []),
    ...(irrigates
      ? [
          note(
            "irrigates",
            "The colostomy is irrigated: no output alone is no sign. Pain, vomiting and swelling are.",
          ),
        ]
      : []),
    note("listIsNotAll", "No list holds every trouble: whoever is worried calls, whatever the level says."),
  ];
}
