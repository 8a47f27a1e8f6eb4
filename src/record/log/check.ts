import { setImmediate as nextTurn } from "node:timers/promises";
import { note } from "../../domain/note.ts";
import type { LogColumn } from "./columns.ts";
import { type DecodedFile, decodeFile } from "./decode.ts";
import { type DoubtCode, doubtOf } from "./doubts.ts";
import { identityOf, knownIdentities } from "./identity.ts";
import { type Layout, notText, readLayout } from "./layout.ts";
import { findOrder } from "./order.ts";
import { type LogRecord, readRecords } from "./records.ts";
import type { BadLine, DateOrder, LogContext, LogOptions, LogReport } from "./report.ts";
import { type Cells, type RowReader, readRow, rowReader } from "./row.ts";
import { ZoneClock } from "./when.ts";

/** Rows shown as they would be recorded. */
const firstRows = 20;

/** Characters of a broken row that are shown. */
const mostShown = 80;

/** Rows between two looks at the caller's signal. */
const rowsATurn = 2000;

/**
 * Reads a log of changes against a stoma's record and says what an import would do. Nothing is guessed beyond the
 * file's encoding and delimiter; the same bytes, context and options give the same report.
 */
export async function checkLog(
  bytes: Uint8Array,
  context: LogContext,
  options: LogOptions = {},
): Promise<LogReport> {
  const report = emptyReport();
  const foreign = notText(bytes);
  if (foreign) return { ...report, problems: [foreign] };
  const file = decodeFile(bytes);
  const layout = readLayout(file.lines);
  report.encoding = file.encoding;
  report.delimiter = layout.delimiter;
  report.unknownColumns = layout.unknownColumns;
  report.problems.push(...layout.problems);
  if (report.problems.length > 0) return report;

  const records = recordsBelow(layout, file, report);
  const order = orderOf(records, layout, report, options.dateOrder);
  if (!order || report.problems.length > 0) return report;
  await checkRows(records, layout, rowReader(context, order, new ZoneClock(context.zone)), report, options);
  const otherLines = file.otherLines.filter((line) => line > layout.rowsFrom);
  if (otherLines.length > 0) report.doubts.push(doubtOf("otherEncoding", otherLines));
  report.bad.sort((a, b) => a.line - b.line);
  report.first = report.drafts.slice(0, firstRows);
  return report;
}

/** The rows below the header; those whose quotes make no sense go to the report at once. */
function recordsBelow(
  { rowsFrom, separator }: Layout,
  { lines }: DecodedFile,
  report: LogReport,
): LogRecord[] {
  const { records, broken, blank } = readRecords(lines.slice(rowsFrom), separator, rowsFrom + 1);
  report.rows = records.length + broken.length;
  report.blank = blank;
  report.badLines = broken.length;
  for (const { line, text, problem, expected } of broken) {
    report.bad.push({ line, column: null, problem, got: text.slice(0, mostShown), expected });
  }
  if (report.rows === 0) report.problems.push(note("noRows", "The file has a header and no rows."));
  return records;
}

/** The order of the file's dates: as it was said, or as the dates themselves leave no doubt of. */
function orderOf(
  records: readonly LogRecord[],
  { columns }: Layout,
  report: LogReport,
  said: DateOrder | undefined,
): DateOrder | null {
  const found = said ? { order: said } : findOrder(records, columns.indexOf("date"));
  report.dateOrder = found.order;
  if (found.order !== null) return found.order;
  const { line, text } = found.example;
  report.needsDateOrder = true;
  const sentence = `The date ${text} on line ${line} can be read in two ways: say which comes first.`;
  report.problems.push(note("dateOrder", sentence, { line, date: text }));
  return null;
}

async function checkRows(
  records: readonly LogRecord[],
  layout: Layout,
  reader: RowReader,
  report: LogReport,
  { onProgress, signal }: LogOptions,
): Promise<void> {
  const inRecord = knownIdentities(reader.context);
  const inFile = new Set<string>();
  const doubts = new Map<DoubtCode, number[]>();
  for (const [index, record] of records.entries()) {
    if (index % rowsATurn === 0) {
      onProgress?.(index, records.length);
      await nextTurn();
      signal?.throwIfAborted();
    }
    const row = readRow(record.line, cellsByColumn(record, layout), reader);
    const faults = [...row.faults, ...extraCells(record, layout)];
    if (!row.draft || faults.length > 0) {
      report.bad.push(...faults);
      report.badLines += 1;
      continue;
    }
    report.good += 1;
    const identity = identityOf(row.draft.at, row.draft.body);
    if (inRecord.has(identity)) report.duplicates.inRecord += 1;
    else if (inFile.has(identity)) report.duplicates.inFile += 1;
    else {
      inFile.add(identity);
      report.drafts.push(row.draft);
      for (const code of row.doubts) {
        const lines = doubts.get(code);
        if (lines) lines.push(record.line);
        else doubts.set(code, [record.line]);
      }
    }
  }
  onProgress?.(records.length, records.length);
  report.doubts = [...doubts].map(([code, lines]) => doubtOf(code, lines));
}

function emptyReport(): LogReport {
  return {
    rows: 0,
    good: 0,
    blank: 0,
    duplicates: { inFile: 0, inRecord: 0 },
    bad: [],
    badLines: 0,
    encoding: "UTF-8",
    delimiter: ",",
    dateOrder: null,
    needsDateOrder: false,
    unknownColumns: [],
    problems: [],
    doubts: [],
    first: [],
    drafts: [],
  };
}

function cellsByColumn({ cells }: LogRecord, { columns }: Layout): Cells {
  const found: Cells = {};
  columns.forEach((column: LogColumn | null, place) => {
    const cell = cells[place];
    if (column && cell) found[column] = unescaped(cell);
  });
  return found;
}

/** Spreadsheets run a cell that begins like a formula, so it is written with an apostrophe before it. */
function unescaped(cell: string): string {
  return /^'[=+\-@]/.test(cell) ? cell.slice(1) : cell;
}

function extraCells({ line, cells }: LogRecord, { columns }: Layout): BadLine[] {
  const extra = cells.slice(columns.length).filter((cell) => cell !== "");
  if (extra.length === 0) return [];
  return [
    {
      line,
      column: null,
      problem: "has more cells than the header",
      got: extra.join(", ").slice(0, mostShown),
      expected: `${columns.length} cells; a cell with the delimiter in it stands in quotes`,
    },
  ];
}
