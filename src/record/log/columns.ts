import type { ChangedPart, ChangeReason } from "../entry/index.ts";

/** Columns of the log of changes. Their order is free; case and spaces do not matter. */
export const logColumns = [
  "date",
  "time",
  "what",
  "why",
  "system",
  "leak hours",
  "last sound",
  "note",
] as const;
export type LogColumn = (typeof logColumns)[number];

export const requiredColumns: readonly LogColumn[] = ["date", "what", "why"];

/** What was changed, as the file says it. */
export const whatWords: Record<ChangedPart, string> = {
  barrier: "barrier",
  pouchOnly: "pouch only",
  cap: "cap",
  nightBag: "night bag",
};

/** Why it was changed, as the file says it. */
export const whyWords: Record<ChangeReason, string> = {
  planned: "planned",
  leakPastEdge: "leak past the edge",
  leakUnderBarrier: "leak under the barrier",
  itchOrLifting: "itch or lifting",
  other: "other",
};

/** A word as it is compared: spaces and case carry no meaning, and nothing else is guessed. */
export function plainWord(text: string): string {
  return text.toLowerCase().replace(/\s+/g, "");
}

/** The column that a header names; null where it is none of ours. */
export function columnNamed(header: string): LogColumn | null {
  return logColumns.find((column) => plainWord(column) === plainWord(header)) ?? null;
}

/** Finds what a cell says among our words. */
export function meaning<K extends string>(words: Record<K, string>, cell: string): K | null {
  const said = plainWord(cell);
  const keys = Object.keys(words) as K[];
  return keys.find((key) => plainWord(words[key]) === said) ?? null;
}
