import { unreadable } from "./unreadable.ts";

/** The largest tracing file that is read; a traced outline takes a few kilobytes. */
const largestBytes = 5_000_000;

/** The text of a file: UTF-16 where its first two bytes say so, else UTF-8. @throws UnreadableTracing */
export function decodeText(bytes: Uint8Array): string {
  if (bytes.length > largestBytes) {
    unreadable("tooLarge", "The file is larger than 5 MB: too large for a tracing. Save the outline alone.", {
      bytes: bytes.length,
    });
  }
  if (isPicture(bytes)) {
    unreadable("picture", "The file is a picture, not lines. Choose “Place a scan” to trace over it.");
  }
  const encoding = encodingOf(bytes);
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return unreadable("notText", "The file is not readable text. Save it as SVG or as CSV in UTF-8.");
  }
}

function encodingOf([first, second]: Uint8Array): string {
  if (first === 0xff && second === 0xfe) return "utf-16le";
  return first === 0xfe && second === 0xff ? "utf-16be" : "utf-8";
}

/** PNG, JPEG, WebP (RIFF) and PDF say so in their first bytes. */
function isPicture(bytes: Uint8Array): boolean {
  const start = String.fromCharCode(...bytes.subarray(0, 4));
  return start === "\x89PNG" || start === "RIFF" || start === "%PDF" || start.startsWith("\xff\xd8");
}
