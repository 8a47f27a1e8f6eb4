/**
 * Something the reader must know beside a figure: why it fired, what it rests on, or why it is missing.
 * Tests and translations use `code` and `params`; `text` is the English sentence.
 */
export interface Note {
  code: string;
  params: Record<string, string | number | boolean | null>;
  text: string;
}

/** Builds a {@link Note}. */
export function note(code: string, text: string, params: Note["params"] = {}): Note {
  return { code, params, text };
}

/** How soon somebody must act, most urgent first. */
export const levels = ["now", "sameDay", "nextContact", "none"] as const;
export type Level = (typeof levels)[number];
