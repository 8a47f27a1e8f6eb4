import type { Effective } from "../../../../record/effective/index.ts";
import type { StoredEntry } from "../../../../record/entry/index.ts";

/** The last word about an entry: the next correction names it, so that two at once are noticed. */
export function tipOf({ corrections, first }: Effective): StoredEntry {
  return corrections.at(-1) ?? first;
}
