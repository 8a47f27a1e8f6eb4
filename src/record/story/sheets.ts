import type { Effective } from "../effective/index.ts";
import { dateOf, type PlainDate } from "../entry/index.ts";

/** A cutting sheet that is out in the world though something it was drawn from was corrected afterwards. */
export interface OvertakenSheet {
  sheetNumber: number;
  madeOn: PlainDate;
}

/**
 * The last sheet, where an entry it rests on was corrected or taken back after it was made; otherwise null.
 * Earlier sheets were replaced by it, and a new one settles the matter.
 */
export function overtakenSheet(
  sheets: readonly Effective<"advised">[],
  own: readonly Effective[],
): OvertakenSheet | null {
  const last = sheets.at(-1);
  if (!last) return null;
  const restsOn = new Set(last.entry.body.from);
  const overtaken = own.some(
    ({ first, corrections }) =>
      [first, ...corrections].some(({ id }) => restsOn.has(id)) &&
      corrections.some(({ cursor }) => cursor > last.first.cursor),
  );
  return overtaken ? { sheetNumber: last.entry.body.sheetNumber, madeOn: dateOf(last.first.at) } : null;
}
