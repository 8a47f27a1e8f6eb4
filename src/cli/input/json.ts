import { parse } from "@humanwhocodes/momoa";
import { refuse } from "../../domain/fault.ts";

const excerptLength = 20;

/**
 * Parses one JSON document.
 * @throws {InputError} that names line and column of the first place where it is not JSON
 */
export function readJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    return refuseAt(text, positionOf(text, error));
  }
}

function refuseAt(text: string, position: number): never {
  if (text.trim() === "") refuse("", "is empty", undefined, "a JSON document");
  if (position >= text.length) {
    refuse(
      "",
      `ends before its JSON does, at ${placeOf(text, text.length)}`,
      undefined,
      "a whole JSON document",
    );
  }
  const excerpt = text.slice(position, position + excerptLength).split("\n", 1)[0];
  refuse("", `is not JSON from ${placeOf(text, position)} on`, excerpt, "valid JSON");
}

/** The engine names the position for most faults; the others are found by a parser that always does. */
function positionOf(text: string, error: unknown): number {
  const message = error instanceof Error ? error.message : "";
  const named = /at position (\d+)/.exec(message);
  if (named) return Number(named[1]);
  if (message.startsWith("Unexpected end")) return text.length;
  try {
    parse(text);
  } catch (found) {
    const { offset } = found as { offset?: unknown };
    if (typeof offset === "number") return offset;
  }
  return 0;
}

/** The column alone where there is one line, as with JSON Lines. */
function placeOf(text: string, position: number): string {
  const before = text.slice(0, position);
  const column = `column ${position - before.lastIndexOf("\n")}`;
  return text.includes("\n") ? `line ${before.split("\n").length}, ${column}` : column;
}
