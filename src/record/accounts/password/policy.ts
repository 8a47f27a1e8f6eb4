import type { Fault } from "../../../domain/fault.ts";
import { commonPasswords } from "./common.ts";

/**
 * Length alone counts; nothing is asked about kinds of characters, and nothing expires.
 * @source NIST SP 800-63B (revision 3) 5.1.1.2 for the manner (no rules of composition, a list of what is too common);
 * OWASP ASVS 5.0 V6.2 for at least 8, better 15; twelve is our own choice between them. All quoted from memory.
 */
export const passwordLength = { min: 12, max: 256 } as const;

/**
 * What is wrong with a password as a new one.
 * @param own names that it may not be made of: the sign-in name, the person's and the clinic's
 */
export function passwordFaults(password: string, own: readonly string[], path = "password"): Fault[] {
  const { min, max } = passwordLength;
  const length = [...password.normalize("NFKC")].length;
  // The password itself is never sent back, not even as what was got.
  const fault = (problem: string, expected: string) => [{ path, problem, got: "(not shown)", expected }];
  if (length < min) return fault("is too short", `at least ${min} characters`);
  if (length > max) return fault("is too long", `at most ${max} characters`);
  const bare = bared(password);
  if (new Set(bare).size < 4)
    return fault("is one of the first to be guessed", "more than a few letters repeated");
  if (isSequence(bare) || commonPasswords.has(bare) || commonPasswords.has(withoutTail(bare))) {
    return fault("is one of the first to be guessed", "something that is in no list");
  }
  return isMadeOf(withoutTail(bare), own)
    ? fault("is made of a name", "something that is not the clinic's or your own name")
    : [];
}

/** Whether hardly anything is left without the names and their words. */
function isMadeOf(text: string, names: readonly string[]): boolean {
  const words = names.flatMap((name) => [bared(name), ...name.split(/[^\p{L}\p{N}]+/u).map(bared)]);
  const longestFirst = words.filter(({ length }) => length > 2).sort((a, b) => b.length - a.length);
  const rest = longestFirst.reduce((left, word) => left.replaceAll(word, ""), text);
  return rest !== text && rest.length < 4;
}

/** Letters and figures alone, lower case: dashes and spaces make nothing safer. */
function bared(text: string): string {
  return text
    .normalize("NFKC")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]/gu, "");
}

/** A year or a few figures at the end are what everyone adds. */
function withoutTail(text: string): string {
  return text.replace(/\d{1,6}$/, "");
}

const rows = [
  "abcdefghijklmnopqrstuvwxyz",
  "01234567890123456789",
  "qwertyuiopasdfghjklzxcvbnm",
  "1qaz2wsx3edc4rfv5tgb6yhn7ujm",
];

function isSequence(text: string): boolean {
  const doubled = rows.flatMap((row) => [row + row, [...(row + row)].reverse().join("")]);
  return doubled.some((row) => row.includes(text));
}
