import type { PlainDate } from "../../domain/calendar.ts";
import { resolve, standing } from "../effective/index.ts";
import { dateOf, type Entry, type Kind, type Known, type StoredEntry } from "../entry/index.ts";

const uses: readonly Kind[] = ["measured", "cut", "fitted", "changed"];

/** A person's record while a batch of entries is being checked against it, one after the other. */
export class PersonSoFar {
  private readonly entries: StoredEntry[];

  constructor(stored: readonly StoredEntry[]) {
    this.entries = [...stored];
  }

  get exists(): boolean {
    return this.entries.some(({ kind }) => kind === "person");
  }

  hasStoma(stomaId: string): boolean {
    return this.entries.some((entry) => entry.kind === "stoma" && entry.stomaId === stomaId);
  }

  /** When the stoma was made and first used, by what stands so far. */
  stoma(stomaId: string): Pick<Known, "surgery" | "firstUseOn"> {
    const effective = resolve(this.entries.filter((entry) => entry.stomaId === stomaId));
    let firstUseOn: PlainDate | undefined;
    for (const { entry, retracted } of effective) {
      if (retracted || !uses.includes(entry.kind)) continue;
      const on = dateOf(entry.at);
      if (firstUseOn === undefined || on < firstUseOn) firstUseOn = on;
    }
    return { surgery: standing(effective, "stoma").at(-1)?.entry.body.surgeryOn, firstUseOn };
  }

  /** Adds an entry as if the store had committed it next. */
  add(entry: Entry): void {
    if (this.entries.some(({ id }) => id === entry.id)) return;
    this.entries.push({ ...entry, cursor: (this.entries.at(-1)?.cursor ?? 0) + 1 });
  }
}
