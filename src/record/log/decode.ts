import type { Encoding } from "./report.ts";
import { decodeWestern } from "./western.ts";

/** A file as lines of text. */
export interface DecodedFile {
  lines: string[];
  encoding: Encoding;
  /** Lines, counted from 1, that were read in another encoding than the rest. */
  otherLines: number[];
}

const [lineFeed, carriageReturn] = [0x0a, 0x0d];

/**
 * Reads text in UTF-8, UTF-16 or Windows-1252, with or without a byte order mark, whatever ends its lines.
 * Where a file was stitched together, each line that is not UTF-8 is read as Windows-1252, in which every byte
 * means something.
 */
export function decodeFile(bytes: Uint8Array): DecodedFile {
  const wide = wideEncoding(bytes);
  if (wide)
    return { lines: linesOf(new TextDecoder(wide).decode(bytes)), encoding: "UTF-16", otherLines: [] };
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return { lines: linesOf(text), encoding: "UTF-8", otherLines: [] };
  } catch {
    return lineByLine(bytes);
  }
}

/** Spaces at the end of a line carry nothing, and after a closing quote they would be in the way. */
function linesOf(text: string): string[] {
  return withoutEnd(text.split(/ *(?:\r\n|\r|\n)/));
}

/** UTF-16 by its mark, or by the zero bytes that plain letters leave on one side. */
function wideEncoding(bytes: Uint8Array): "utf-16le" | "utf-16be" | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  const start = bytes.subarray(0, 1000);
  const zeros = [0, 0];
  start.forEach((byte, index) => {
    if (byte === 0) zeros[index % 2]! += 1;
  });
  const [even, odd] = zeros as [number, number];
  const many = start.length / 4;
  if (odd > many && even === 0) return "utf-16le";
  return even > many && odd === 0 ? "utf-16be" : null;
}

function lineByLine(bytes: Uint8Array): DecodedFile {
  const strict = new TextDecoder("utf-8", { fatal: true });
  const lines: string[] = [];
  const westernLines: number[] = [];
  let hasWideUtf8 = false;
  for (const line of byteLines(bytes)) {
    try {
      lines.push(strict.decode(line).replace(/ +$/, ""));
      hasWideUtf8 ||= line.some((byte) => byte >= 0x80);
    } catch {
      lines.push(decodeWestern(line).replace(/ +$/, ""));
      westernLines.push(lines.length);
    }
  }
  return hasWideUtf8
    ? { lines: withoutEnd(lines), encoding: "mixed", otherLines: westernLines }
    : { lines: withoutEnd(lines), encoding: "Windows-1252", otherLines: [] };
}

/** What follows the last line end is no line. */
function withoutEnd(lines: string[]): string[] {
  if (lines.at(-1) === "") lines.pop();
  return lines;
}

function* byteLines(bytes: Uint8Array): Generator<Uint8Array> {
  let from = 0;
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at];
    if (byte !== lineFeed && byte !== carriageReturn) continue;
    yield bytes.subarray(from, at);
    if (byte === carriageReturn && bytes[at + 1] === lineFeed) at += 1;
    from = at + 1;
  }
  yield bytes.subarray(from);
}
