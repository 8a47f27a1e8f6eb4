import { readCsv } from "./csv/index.ts";
import { decodeText } from "./decode.ts";
import { readSvg } from "./svg/index.ts";
import type { TracingFile } from "./traced.ts";

export { evenlySpaced, withoutLongEdges } from "./evenly.ts";
export { drawnLoop } from "./loop.ts";
export { asDrawn, type Placing, placed } from "./place.ts";
export { furthestApartMm, type Smoothing, smoothed, smoothings } from "./smooth.ts";
export { type TracedOutline, type TracingFile, tracedOutline } from "./traced.ts";
export { UnreadableTracing } from "./unreadable.ts";

/** Reads a tracing file, SVG or CSV by what it holds. @throws UnreadableTracing with a sentence to show */
export function readTracing(bytes: Uint8Array): TracingFile {
  const text = decodeText(bytes);
  return /^\uFEFF?\s*</.test(text) ? readSvg(text) : readCsv(text);
}
