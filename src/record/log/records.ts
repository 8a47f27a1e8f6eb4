import Papa from "papaparse";

/** One row of the file, which quoted line ends may spread over several lines. */
export interface LogRecord {
  /** Line on which it begins, counted from 1. */
  line: number;
  cells: string[];
}

export interface BrokenRecord {
  line: number;
  text: string;
  problem: string;
  expected: string;
}

export interface Records {
  records: LogRecord[];
  broken: BrokenRecord[];
  blank: number;
}

/** A note longer than this many lines is a quote that was never closed. */
const mostLinesInARow = 60;

/**
 * Splits lines into rows of cells. A row whose quotes make no sense is set apart with its first line, and
 * reading goes on at the next line: one lost quote must not swallow the rest of the log.
 */
export function readRecords(lines: readonly string[], delimiter: string, firstLine: number): Records {
  const whole: { line: number; text: string }[] = [];
  const broken: BrokenRecord[] = [];
  let blank = 0;
  let index = 0;
  while (index < lines.length) {
    const start = lines[index]!;
    const line = firstLine + index;
    if (isBlank(start, delimiter)) {
      blank += 1;
      index += 1;
      continue;
    }
    const row = rowFrom(lines, index, delimiter);
    if (row.wrong) broken.push({ line, text: start, ...row.wrong });
    else whole.push({ line, text: row.text });
    index += row.wrong ? 1 : row.lineCount;
  }
  return { records: cellsOf(whole, delimiter), broken, blank };
}

/** The cells of one line alone. */
export function cellsOfLine(line: string, delimiter: string): string[] {
  return line === "" ? [] : cellsOf([{ line: 1, text: line }], delimiter)[0]!.cells;
}

function isBlank(line: string, delimiter: string): boolean {
  return line.replaceAll(delimiter, "").trim() === "";
}

interface Row {
  text: string;
  lineCount: number;
  wrong: { problem: string; expected: string } | null;
}

/** The row that begins on a line: quotes open a cell only at its very start, as RFC 4180 has it. */
function rowFrom(lines: readonly string[], from: number, delimiter: string): Row {
  let text = lines[from]!;
  let state = scan(text, delimiter, false);
  let lineCount = 1;
  while (state === "open" && lineCount < mostLinesInARow && from + lineCount < lines.length) {
    const next = lines[from + lineCount]!;
    state = scan(next, delimiter, true);
    text += `\n${next}`;
    lineCount += 1;
  }
  return { text, lineCount, wrong: state === "closed" ? null : quoteFaults[state] };
}

const quoteFaults = {
  open: { problem: "opens a quote that is never closed", expected: "a closing quote" },
  malformed: {
    problem: "has text after a closing quote",
    expected: "a quote inside a quoted cell written twice",
  },
};

function scan(line: string, delimiter: string, quoted: boolean): "closed" | "open" | "malformed" {
  if (!quoted && !line.includes('"')) return "closed";
  let at = 0;
  let open = quoted;
  while (true) {
    if (!open) {
      if (line[at] === '"') {
        open = true;
        at += 1;
      } else {
        const next = line.indexOf(delimiter, at);
        if (next < 0) return "closed";
        at = next + 1;
      }
      continue;
    }
    const quote = line.indexOf('"', at);
    if (quote < 0) return "open";
    if (line[quote + 1] === '"') {
      at = quote + 2;
      continue;
    }
    let after = quote + 1;
    while (line[after] === " ") after += 1;
    if (after === line.length) return "closed";
    if (line[after] !== delimiter) return "malformed";
    open = false;
    at = after + 1;
  }
}

function cellsOf(rows: readonly { line: number; text: string }[], delimiter: string): LogRecord[] {
  if (rows.length === 0) return [];
  const text = rows.map((row) => row.text).join("\n");
  const { data } = Papa.parse<string[]>(text, { delimiter, newline: "\n", quoteChar: '"' });
  if (data.length !== rows.length) throw new Error(`${rows.length} rows were read as ${data.length}`);
  return rows.map(({ line }, index) => ({ line, cells: data[index]!.map((cell) => cell.trim()) }));
}
