import type { StoredEntry } from "../entry/index.ts";
import type { Kind } from "../entry/kinds/index.ts";

/** An entry as it now stands, with everything that was ever written about it. */
export interface Effective<K extends Kind = Kind> {
  /** What holds now: the first entry, or the last replacement of it. */
  entry: StoredEntry<K>;
  /** What was first written. Equal to `entry` when nothing was corrected. */
  first: StoredEntry<K>;
  /** Corrections in the order the store committed them. */
  corrections: StoredEntry[];
  /** Taken back: it stays readable and counts nowhere. */
  retracted: boolean;
  /** Two corrections name the same entry: both are kept, and somebody must choose. */
  disputed: boolean;
}

/**
 * Resolves corrections. Each entry that corrects nothing becomes one {@link Effective}; corrections of
 * corrections follow the chain. Order: by the store's cursor of the first entry.
 */
export function resolve(entries: readonly StoredEntry[]): Effective[] {
  const ordered = [...entries].sort((a, b) => a.cursor - b.cursor);
  const byId = new Map(ordered.map((entry) => [entry.id, entry]));
  const found = new Map<string, Effective>();
  for (const entry of ordered) {
    const rootId = rootOf(entry, byId);
    const known = found.get(rootId);
    if (!known) {
      found.set(rootId, { entry, first: entry, corrections: [], retracted: false, disputed: false });
      continue;
    }
    known.disputed ||= known.corrections.some((other) => other.corrects?.id === entry.corrects?.id);
    known.corrections.push(entry);
    known.retracted = entry.corrects?.as === "retract";
    if (!known.retracted) known.entry = entry;
  }
  return [...found.values()];
}

/** Follows `corrects` to the entry that started the chain; an unknown target makes the entry its own root. */
function rootOf(entry: StoredEntry, byId: ReadonlyMap<string, StoredEntry>): string {
  let current = entry;
  while (current.corrects) {
    const target = byId.get(current.corrects.id);
    if (!target || target.cursor >= current.cursor) break;
    current = target;
  }
  return current.id;
}

/** Entries of one kind that still count, oldest first by the time they are about. */
export function standing<K extends Kind>(effective: readonly Effective[], kind: K): Effective<K>[] {
  return effective.filter((one): one is Effective<K> => one.entry.kind === kind && !one.retracted);
}
