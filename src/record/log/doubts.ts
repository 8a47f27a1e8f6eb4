import type { LogDoubt } from "./report.ts";

export type DoubtCode = LogDoubt["code"];

/** Lines that are named; the count says how many there are. */
const mostLines = 20;

const texts: Record<DoubtCode, (count: string) => string> = {
  timeMissing: (rows) => `${rows} without a time: how long those barriers were worn is known to half a day.`,
  timeSkipped: (rows) => `${rows} with a time that the clocks skipped: taken as the time an hour later.`,
  timeRepeated: (rows) => `${rows} with a time that came twice that night: taken as the first.`,
  otherEncoding: (rows) =>
    `${rows} in another encoding than the rest, read as Windows-1252: check letters with accents.`,
};

/** What the nurse should know about some rows, in one sentence. */
export function doubtOf(code: DoubtCode, lines: readonly number[]): LogDoubt {
  const rows = lines.length === 1 ? "1 row" : `${lines.length} rows`;
  return { code, text: texts[code](rows), count: lines.length, lines: lines.slice(0, mostLines) };
}
