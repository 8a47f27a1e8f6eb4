import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { now, samplePerson, storyOf, zone } from "../../../test/record/samples.ts";
import { checkLog, type LogContext, type LogReport } from "./index.ts";

const story = storyOf(samplePerson({}, { surgeryOn: undefined }).entries);
const context: LogContext = { stoma: story.stomas[0]!, history: story.history, zone, nowMs: now };
const head = "date,time,what,why,system,leak hours,last sound,note";
const row = "2026-11-02,08:15,barrier,planned,,,,";

function check(content: string | Uint8Array): Promise<LogReport> {
  return checkLog(typeof content === "string" ? new TextEncoder().encode(content) : content, context);
}

/** Bytes of text in which é and € are written as Windows-1252 does. */
function western(text: string): Uint8Array {
  const bytes = new TextEncoder().encode(text.replaceAll("é", "\u0001").replaceAll("€", "\u0002"));
  return bytes.map((byte) => (byte === 1 ? 0xe9 : byte === 2 ? 0x80 : byte));
}

function wide(text: string, littleEndian: boolean, mark: boolean): Uint8Array {
  const bytes: number[] = mark ? (littleEndian ? [0xff, 0xfe] : [0xfe, 0xff]) : [];
  for (let at = 0; at < text.length; at += 1) {
    const unit = text.charCodeAt(at);
    bytes.push(...(littleEndian ? [unit & 255, unit >> 8] : [unit >> 8, unit & 255]));
  }
  return new Uint8Array(bytes);
}

function joined(...parts: Uint8Array[]): Uint8Array {
  return new Uint8Array(parts.flatMap((part) => [...part]));
}

describe("encodings", () => {
  const text = `${head}\n${row}café 5 €\n`;
  it.each([
    ["UTF-8", new TextEncoder().encode(text)],
    ["UTF-8", new TextEncoder().encode(`\ufeff${text}`)],
    ["UTF-16", wide(text, true, true)],
    ["UTF-16", wide(text, false, true)],
    ["UTF-16", wide(text, true, false)],
    ["UTF-16", wide(text, false, false)],
    ["Windows-1252", western(text)],
  ] as const)("%s is recognised", async (encoding, bytes) => {
    const report = await check(bytes);
    expect(report).toMatchObject({ encoding, bad: [], good: 1, doubts: [] });
    expect(report.drafts[0]?.body.note).toBe("café 5 €");
  });

  it("may change within a stitched file, and the nurse is told which lines", async () => {
    const report = await check(
      joined(
        new TextEncoder().encode(`${head}\n${row}café\n`),
        western(`${row.replace("08:15", "09:15")}café\n`),
      ),
    );
    expect(report.encoding).toBe("mixed");
    expect(report.drafts.map(({ body }) => body.note)).toEqual(["café", "café"]);
    expect(report.doubts).toMatchObject([{ code: "otherEncoding", count: 1, lines: [3] }]);
  });
});

describe("layout", () => {
  it.each([",", ";", "\t"])("takes %j as the delimiter", async (delimiter) => {
    const text = `${head}\n${row}all well`.replaceAll(",", delimiter);
    expect(await check(text)).toMatchObject({
      good: 1,
      bad: [],
      delimiter: delimiter === "\t" ? "tab" : delimiter,
    });
  });

  it.each(["\n", "\r\n", "\r"])("takes %j as the end of a line", async (end) => {
    const report = await check([head, "", row, "  ", ",,,,,,,", `${row.replace("08", "09")}x`, ""].join(end));
    expect(report).toMatchObject({ rows: 2, good: 2, blank: 3, bad: [] });
    expect(report.drafts.map(({ line }) => line)).toEqual([3, 6]);
  });

  it("leaves the order of the columns free and reports those it does not know", async () => {
    const report = await check("Why;mood; What ;DATE;Leak  Hours\nplanned;fine;barrier;2026-11-02;7");
    expect(report).toMatchObject({ good: 1, unknownColumns: ["mood"], problems: [] });
    expect(report.drafts[0]?.body).toEqual({ what: "barrier", why: "planned", leakHours: [7] });
  });

  it("passes over a line that only names the delimiter", async () => {
    const report = await check(`sep=;\n${head.replaceAll(",", ";")}\n${row.replaceAll(",", ";")}`);
    expect(report.drafts.map(({ line }) => line)).toEqual([3]);
  });

  it.each([
    ["fileEmpty", ""],
    ["fileEmpty", "\n \n"],
    ["noRows", head],
    ["headerMissing", "2026-11-02,08:15,barrier,planned\n2026-11-03,08:15,barrier,planned"],
    ["headerMissing", "<html><body>Not found</body></html>"],
    ["columnMissing", "date,what,reason\n2026-11-02,barrier,planned"],
    ["columnTwice", "date,what,why,date\n2026-11-02,barrier,planned,2026-11-03"],
    ["spreadsheet", "PK\u0003\u0004 and so on"],
    ["notText", "%PDF-1.7"],
  ])("%s is said of the whole file, and nothing is importable", async (code, text) => {
    const report = await check(text);
    expect(report.problems.map((problem) => problem.code)).toEqual([code]);
    expect(report.drafts).toEqual([]);
  });

  it("says that a row has more cells than the header", async () => {
    const report = await check(`${head}\n${row}sore, but dry`);
    expect(report.bad).toMatchObject([
      { line: 2, column: null, problem: "has more cells than the header", got: "but dry" },
    ]);
  });
});

describe("quotes", () => {
  it("keep delimiters and line ends inside a cell, and lines below keep their numbers", async () => {
    const report = await check(
      `${head}\n${row}"red, sore\nand wet, he said ""since Monday"""\n${row.replace("08", "09")}`,
    );
    expect(report.drafts.map(({ line, body }) => [line, body.note])).toEqual([
      [2, 'red, sore\nand wet, he said "since Monday"'],
      [4, undefined],
    ]);
  });

  it("that are never closed cost their own line and no other", async () => {
    const rows = Array.from(
      { length: 200 },
      (_, index) => `2026-11-02,0${index % 10}:${10 + Math.floor(index / 10)},barrier,planned`,
    );
    rows[50] = '"2026-11-02,08:15,barrier,planned';
    rows[120] = '2026-11-02,08:15,barrier,planned,,,,"sore';
    const report = await check([head, ...rows].join("\n"));
    expect(report.bad.map(({ line, problem }) => [line, problem])).toEqual([
      [52, "opens a quote that is never closed"],
      [122, "opens a quote that is never closed"],
    ]);
    expect(report).toMatchObject({ rows: 200, good: 198, badLines: 2 });
  });

  it("inside a word are letters like any other", async () => {
    const report = await check(`${head}\n${row}a 3" ring`);
    expect(report.drafts[0]?.body.note).toBe('a 3" ring');
  });

  it("followed by more text are a fault of their row", async () => {
    const report = await check(`${head}\n${row}"sore" at 4\n${row.replace("08", "09")}`);
    expect(report.bad).toMatchObject([{ line: 2, problem: "has text after a closing quote" }]);
    expect(report.good).toBe(1);
  });
});

describe("any file at all", () => {
  const anyLine = fc.oneof(
    fc.constant(row),
    fc.constant(head),
    fc.string({ maxLength: 40 }),
    fc.string({ unit: fc.constantFrom(",", '"', ";", "\t", " ", "a", "1", "-", "\r"), maxLength: 30 }),
  );

  it("gives a report whose counts add up, and the same one again", async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(anyLine, { maxLength: 12 }),
        fc.constantFrom("\n", "\r\n", "\r"),
        async (lines, end) => {
          const text = [head, ...lines].join(end);
          const report = await check(text);
          const { good, badLines, rows, drafts, duplicates } = report;
          expect(good + badLines).toBe(report.needsDateOrder || report.problems.length > 0 ? badLines : rows);
          expect(drafts.length + duplicates.inFile).toBe(good);
          expect(await check(text)).toEqual(report);
        },
      ),
      { numRuns: 300, seed: 11 },
    );
  });

  it("of bytes gives a report and never an error", async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 400 }), async (bytes) => {
        const report = await check(joined(new TextEncoder().encode(`${head}\n`), bytes));
        expect(report.good + report.badLines).toBeLessThanOrEqual(report.rows);
      }),
      { numRuns: 300, seed: 12 },
    );
  });
});

describe("a long log", () => {
  const start = Date.parse("2023-01-01T00:00:00Z");
  const many = Array.from({ length: 100_000 }, (_, index) => {
    const at = new Date(start + index * 15 * 60_000).toISOString();
    return `${at.slice(0, 10)},${at.slice(11, 16)},barrier,planned,,,,"line ${index}, quoted"`;
  });
  const bytes = new TextEncoder().encode([head, ...many].join("\r\n"));

  it("of 100,000 rows is checked in a few seconds, with progress", async () => {
    const seen: number[] = [];
    const started = process.cpuUsage();
    const report = await checkLog(bytes, context, { onProgress: (done) => seen.push(done) });
    const { user, system } = process.cpuUsage(started);
    // 100,000 quarter hours hold one hour skipped and one repeated a year.
    expect(report.good).toBe(100_000);
    expect(report.drafts.length + report.duplicates.inFile).toBe(100_000);
    expect(seen.at(-1)).toBe(100_000);
    expect(seen.length).toBeGreaterThan(40);
    // Seconds of work, not of waiting: other tests run beside this one.
    expect((user + system) / 1e6).toBeLessThan(6);
  });

  it("stops when it is told to", async () => {
    const stop = new AbortController();
    const checking = checkLog(bytes, context, { signal: stop.signal, onProgress: () => stop.abort() });
    await expect(checking).rejects.toThrow("aborted");
  });
});
