import { createInterface } from "node:readline/promises";
import { bytesOf, textOf } from "../input/index.ts";

/** As many letters as a key has: then it needs no further line. */
const keyLetters = 74;

/**
 * Reads a recovery key as it stands on paper: from a file, or (`-`) from standard input. It is never an argument,
 * since those stand in the list of processes and in the shell's history.
 * @throws {KeyFault} when it is none
 */
export async function recoveryKeyFrom(source: string): Promise<string>;
export async function recoveryKeyFrom(source: string | undefined): Promise<string | undefined>;
export async function recoveryKeyFrom(source: string | undefined): Promise<string | undefined> {
  if (source === undefined) return undefined;
  const { readKey } = await import("../../record/keys/index.ts");
  const isTyped = source === "-" && process.stdin.isTTY;
  return readKey(isTyped ? await typed() : textOf(await bytesOf(source)));
}

/** Lines until the key is complete, or an empty one. */
async function typed(): Promise<string> {
  const lines = createInterface({ input: process.stdin, output: process.stderr, terminal: false });
  process.stderr.write("Type the recovery key from its paper; spaces and new lines do not matter:\n");
  let text = "";
  try {
    for await (const line of lines) {
      text += line.replace(/\s+/g, "");
      if (line.trim() === "" || text.length >= keyLetters) break;
    }
    return text;
  } finally {
    lines.close();
  }
}
