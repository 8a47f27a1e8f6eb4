import type { Effective } from "../effective/index.ts";
import { dateOf, type PlainDate, type RecordedShape } from "../entry/index.ts";

/** An opening in use from the day it was cut to the day the next one was. */
export interface CutOpening {
  entryId: string;
  from: PlainDate;
  /** Null while it is the one in use. */
  to: PlainDate | null;
  shape: RecordedShape;
  source: Effective<"cut">;
}

export function openingsOf(cuts: Effective<"cut">[]): CutOpening[] {
  return cuts.map((source, index) => {
    const next = cuts[index + 1];
    return {
      entryId: source.entry.id,
      from: dateOf(source.entry.at),
      to: next ? dateOf(next.entry.at) : null,
      shape: source.entry.body.opening,
      source,
    };
  });
}
