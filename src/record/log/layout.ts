import { type Note, note } from "../../domain/note.ts";
import { columnNamed, type LogColumn, logColumns, requiredColumns } from "./columns.ts";
import { cellsOfLine } from "./records.ts";
import type { Delimiter } from "./report.ts";

/** How a file is laid out: where its header stands, what parts its cells, and which column is which. */
export interface Layout {
  /** Index of the first line after the header. */
  rowsFrom: number;
  delimiter: Delimiter;
  /** The character itself. */
  separator: string;
  /** The column at each place of a row; null for one that is not ours. */
  columns: (LogColumn | null)[];
  unknownColumns: string[];
  problems: Note[];
}

const separators: Record<Delimiter, string> = { ",": ",", ";": ";", tab: "\t" };

/** Some programs write the delimiter on a line of its own before the header. */
const delimiterLine = /^"?sep=(.)"?$/i;

/** Reads the header. The delimiter is the one by which most of its columns are ours. */
export function readLayout(lines: readonly string[]): Layout {
  let index = 0;
  while (index < lines.length && (lines[index]!.trim() === "" || delimiterLine.test(lines[index]!)))
    index += 1;
  const header = lines[index] ?? "";
  const guesses = (Object.keys(separators) as Delimiter[]).map((delimiter) => {
    const titles = cellsOfLine(header, separators[delimiter]);
    return { delimiter, titles, known: titles.filter((title) => columnNamed(title) !== null).length };
  });
  const best = guesses.reduce((a, b) => (b.known > a.known ? b : a));
  const columns = best.titles.map(columnNamed);
  return {
    rowsFrom: index + 1,
    delimiter: best.delimiter,
    separator: separators[best.delimiter],
    columns,
    unknownColumns: best.titles.filter((title) => title !== "" && columnNamed(title) === null),
    problems: headerProblems(header, columns),
  };
}

function headerProblems(header: string, columns: readonly (LogColumn | null)[]): Note[] {
  if (header.trim() === "") return [note("fileEmpty", "The file is empty.")];
  const shown = logColumns.join(", ");
  if (columns.every((column) => column === null)) {
    return [
      note(
        "headerMissing",
        `The first line names none of the columns of a log of changes: ${shown}. Is it the right file?`,
        { firstLine: header.slice(0, 80) },
      ),
    ];
  }
  const missing = requiredColumns.filter((column) => !columns.includes(column));
  const twice = logColumns.filter((column) => columns.filter((other) => other === column).length > 1);
  return [
    ...missing.map((column) =>
      note("columnMissing", `The column “${column}” is missing. A log needs ${requiredColumns.join(", ")}.`, {
        column,
      }),
    ),
    ...twice.map((column) => note("columnTwice", `The column “${column}” is there twice.`, { column })),
  ];
}

/** What a file is that is no text at all; null where it may be text. */
export function notText(bytes: Uint8Array): Note | null {
  const start = String.fromCharCode(...bytes.subarray(0, 4));
  if (start.startsWith("PK\u0003\u0004") || start === "\u00d0\u00cf\u0011\u00e0") {
    return note("spreadsheet", "This is a spreadsheet file. Save the sheet as CSV and choose that file.");
  }
  if (start === "%PDF" || start === "\u0089PNG" || start.startsWith("\u00ff\u00d8\u00ff")) {
    return note("notText", "This is a picture or a document, not a table. Save the log as CSV.");
  }
  return null;
}
