import type { Level } from "../../../domain/note.ts";
import { capitalNumber, numberWord } from "../../shared/words/index.ts";

type Counted = Pick<{ level: Exclude<Level, "none">; personId: string }, "level" | "personId">;

/** "One person to ring now, three more before you go home, two this week." */
export function countsSentence(lines: readonly Counted[]): string {
  const seen = new Set<string>();
  const people = (level: Counted["level"]) => {
    const fresh = new Set(lines.filter((line) => line.level === level).map(({ personId }) => personId));
    for (const id of seen) fresh.delete(id);
    for (const id of fresh) seen.add(id);
    return fresh.size;
  };
  const parts = [
    { count: people("now"), words: "to ring now" },
    { count: people("sameDay"), words: "before you go home" },
    { count: people("nextContact"), words: "this week" },
  ].filter(({ count }) => count > 0);
  const [first, ...rest] = parts;
  if (!first) return "Nobody needs you today: nothing passes a protocol value.";
  const person = first.count === 1 ? "person" : "people";
  const verb = first.words.startsWith("to ") ? "" : "to speak to ";
  const opening = `${capitalNumber(first.count)} ${person} ${verb}${first.words}`;
  const more = rest.map(({ count, words }) => `${numberWord(count)} more ${words}`);
  return `${[opening, ...more].join(", ")}.`;
}
