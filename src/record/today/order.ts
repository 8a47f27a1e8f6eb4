import { byUrgency } from "../../domain/attention/index.ts";
import type { CaseloadPlace } from "../store/store.ts";
import type { TodayLine } from "./line.ts";

/** Where a line stands: by its most urgent reason, then by name. */
export function placeOf({ reasons, person, stoma }: TodayLine): CaseloadPlace {
  const [first] = reasons;
  return {
    level: first!.level as CaseloadPlace["level"],
    waitedDays: first!.waitedDays,
    searchText: person.searchText,
    stomaId: stoma.stomaId,
  };
}

/** The order of the list: most urgent first, then what has waited longest, then names, as the database orders them. */
export function byPlace(a: CaseloadPlace, b: CaseloadPlace): number {
  return byUrgency(a, b) || byCodePoint(a.searchText, b.searchText) || byCodePoint(a.stomaId, b.stomaId);
}

function byCodePoint(a: string, b: string): number {
  return Buffer.compare(Buffer.from(a), Buffer.from(b));
}
