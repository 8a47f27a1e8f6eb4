import Papa from "papaparse";
import { note } from "../../../domain/note.ts";
import type { Point } from "../../../domain/outline/index.ts";
import { type TracingFile, tracedOutline } from "../traced.ts";
import { unreadable } from "../unreadable.ts";
import { readHeading, readNumber } from "./numbers.ts";

const mostPoints = 20_000;

/**
 * A closed line from a list of points, one a row: x (to the viewer's right) and y (up), in mm unless the heading
 * names cm or inches. Columns by semicolon, tab, comma or spaces; decimals by point or comma. The last point is
 * joined to the first.
 *
 * @throws UnreadableTracing naming the row
 */
export function readCsv(text: string): TracingFile {
  const rows = rowsOf(text.replace(/^\uFEFF/, ""));
  const [first] = rows;
  if (!first) return unreadable("empty", "The file is empty.");
  const headed = first.cells.every((cell) => readNumber(cell) === null);
  const columns = headed ? headedColumns(first.cells) : plainColumns();
  const points = (headed ? rows.slice(1) : rows).map((row) => pointOf(row, columns, headed));
  if (points.length > mostPoints) {
    unreadable("tooManyPoints", `The file has ${points.length} points: too many for an outline.`);
  }
  const traced = tracedOutline("Points of the file", points);
  if (!traced) {
    return unreadable(
      "noOutline",
      `The file has ${points.length} points that enclose nothing: at least three, not in one line, are needed.`,
      { points: points.length },
    );
  }
  const joined = note(
    "joined",
    `The last point was joined to the first, ${traced.joinedMm.toFixed(1)} mm away.`,
    {
      joinedMm: traced.joinedMm,
    },
  );
  return {
    format: "csv",
    outlines: [traced],
    notes: traced.joinedMm > longestStepMm(points) ? [joined] : [],
  };
}

interface Row {
  /** Line of the file, from 1. */
  line: number;
  cells: string[];
}

interface Columns {
  x: number;
  y: number;
  xMm: number;
  yMm: number;
}

function rowsOf(text: string): Row[] {
  const lines = text.split(/\r\n|\r|\n/);
  const delimiter = delimiterOf(lines.find((line) => line.trim() !== "" && !line.startsWith("#")) ?? "");
  return lines.flatMap((content, index): Row[] => {
    if (content.trim() === "" || content.startsWith("#")) return [];
    if (delimiter === " ") return [{ line: index + 1, cells: content.trim().split(/\s+/) }];
    const [cells = []] = Papa.parse<string[]>(content, { delimiter }).data;
    return [{ line: index + 1, cells: withoutEmptyEnd(cells) }];
  });
}

/** A comma parts columns only where nothing better does: it may be a decimal mark. */
function delimiterOf(line: string): string {
  return [";", "\t", ","].find((mark) => line.includes(mark) && !isDecimalIn(line, mark)) ?? " ";
}

/** `12,5 30,1`: with spaces between the numbers, the commas are decimal marks. */
function isDecimalIn(line: string, mark: string): boolean {
  return mark === "," && /^\s*[+-]?\d+,\d+\s+[+-]?\d+,\d+\s*$/.test(line);
}

function withoutEmptyEnd(cells: string[]): string[] {
  return cells.at(-1)?.trim() === "" ? cells.slice(0, -1) : cells;
}

function plainColumns(): Columns {
  return { x: 0, y: 1, xMm: 1, yMm: 1 };
}

function headedColumns(cells: string[]): Columns {
  const headings = cells.map(readHeading);
  const find = (axis: "x" | "y") => headings.findIndex((heading) => heading.axis === axis);
  const [x, y] = [find("x"), find("y")];
  if (x < 0 || y < 0) {
    return unreadable("headings", `The headings “${cells.join(", ").slice(0, 60)}” name no x and y.`);
  }
  const [xMm, yMm] = [headings[x]!.mmPerUnit, headings[y]!.mmPerUnit];
  if (xMm === null || yMm === null) {
    return unreadable(
      "unit",
      `The headings “${cells[x]}” and “${cells[y]}” name no unit of length. Use mm, cm or in.`,
    );
  }
  return { x, y, xMm, yMm };
}

function pointOf({ line, cells }: Row, { x, y, xMm, yMm }: Columns, headed: boolean): Point {
  if (!headed && cells.length !== 2) {
    const many = cells.length === 4 ? " Decimal commas need semicolons or tabs between the columns." : "";
    unreadable("columns", `Line ${line} has ${cells.length} columns: x and y are needed.${many}`, { line });
  }
  const [valueX, valueY] = [readNumber(cells[x] ?? ""), readNumber(cells[y] ?? "")];
  if (valueX === null || valueY === null || !Number.isFinite(valueX * valueY)) {
    return unreadable("notNumbers", `Line ${line} is not two numbers: “${cells.join(" ").slice(0, 40)}”.`, {
      line,
    });
  }
  return [valueX * xMm, valueY * yMm];
}

function longestStepMm(points: readonly Point[]): number {
  let longest = 0;
  for (let i = 1; i < points.length; i += 1) {
    const [[ax, ay], [bx, by]] = [points[i - 1]!, points[i]!];
    longest = Math.max(longest, Math.hypot(bx - ax, by - ay));
  }
  return longest;
}
