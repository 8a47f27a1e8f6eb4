import type { LogRecord } from "./records.ts";
import type { DateOrder } from "./report.ts";
import { isYearLast, readDate } from "./when.ts";

/** In which order the file writes its dates, or a date that shows why it must be asked. */
export type OrderFound = { order: DateOrder } | { order: null; example: { line: number; text: string } };

/**
 * Finds the order of day and month without guessing: only where every date of the file can be read one way, and
 * some cannot be read the other way. Dates with the year first need none.
 */
export function findOrder(records: readonly LogRecord[], dateAt: number): OrderFound {
  const dates = records
    .map(({ line, cells }) => ({ line, text: cells[dateAt] ?? "" }))
    .filter(({ text }) => isYearLast(text));
  const [first] = dates;
  if (!first) return { order: "ymd" };
  const dayFirst = dates.map(({ text }) => readDate(text, "dmy"));
  const monthFirst = dates.map(({ text }) => readDate(text, "mdy"));
  // A date that is none in either order is a fault of its row and says nothing about the others.
  const differing = dates.filter((_, index) => dayFirst[index] !== monthFirst[index]);
  if (differing.length === 0) return { order: "dmy" };
  const mayBeDayFirst = dayFirst.every((date, index) => date !== null || monthFirst[index] === null);
  const mayBeMonthFirst = monthFirst.every((date, index) => date !== null || dayFirst[index] === null);
  if (mayBeDayFirst !== mayBeMonthFirst) return { order: mayBeDayFirst ? "dmy" : "mdy" };
  return { order: null, example: differing[0]! };
}
