import { CarryFault } from "./fault.ts";

/** No row of ours comes near; a line without end would fill the memory. */
const longestLine = 64 * 2 ** 20;

/** Bytes as lines without their ends. @throws {CarryFault} for bytes that are no UTF-8, a line too long, a last one cut short */
export async function* linesFrom(bytes: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let left = "";
  for await (const chunk of bytes) {
    const lines = decoded(() => decoder.decode(chunk, { stream: true })).split("\n");
    lines[0] = left + lines[0];
    left = lines.pop()!;
    yield* lines;
    if (left.length > longestLine) throw notADump();
  }
  decoded(() => decoder.decode());
  if (left !== "") throw new CarryFault("damaged", "It was cut short: its last line has no end.");
}

/** Pieces of some whole lines each, as they are made, one line at a time. */
export async function* linesOf(pieces: AsyncIterable<string>): AsyncGenerator<string> {
  for await (const piece of pieces) yield* piece.slice(0, -1).split("\n");
}

function decoded(decode: () => string): string {
  try {
    return decode();
  } catch {
    throw notADump();
  }
}

export function notADump(): CarryFault {
  return new CarryFault("notABackup", "It was opened, but what is inside is no backup of Roundel.");
}
