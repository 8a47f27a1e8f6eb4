import type { Fault } from "../../domain/fault.ts";
import type { Entry, Kind } from "../entry/index.ts";
import type { RecordStore } from "../store/index.ts";

type Target = Pick<Entry, "kind" | "personId" | "stomaId">;

/**
 * Whether what an entry points to is there, earlier in the file or in the store: its clinic, its person, its
 * stoma and the entry it corrects; and whether its person was erased. Dates are not judged again: the record says what was written at the time.
 */
export class References {
  private readonly store: RecordStore;
  private readonly clinicId: string;
  private readonly entries = new Map<string, Target>();
  private readonly people = new Map<string, Promise<boolean>>();
  private readonly erased = new Map<string, Promise<boolean>>();
  /** The person who has each stoma; null for none. */
  private readonly owners = new Map<string, Promise<string | null>>();

  constructor(store: RecordStore, clinicId: string) {
    this.store = store;
    this.clinicId = clinicId;
  }

  async faultsOf(entry: Entry): Promise<Fault[]> {
    if (entry.clinicId !== this.clinicId) {
      return [fault("clinicId", "is another clinic's", entry.clinicId, this.clinicId)];
    }
    if (await this.isErased(entry.personId)) {
      return [fault("personId", "was erased on lawful request", entry.personId, "nothing about this person")];
    }
    return [
      ...(await this.personFaults(entry)),
      ...(await this.stomaFaults(entry)),
      ...(await this.targetFaults(entry)),
    ];
  }

  /** Remembers an entry that those after it may point to. */
  add({ id, kind, personId, stomaId }: Entry): void {
    this.entries.set(id, { kind, personId, stomaId });
    if (kind === "person" && personId) this.people.set(personId, Promise.resolve(true));
    if (kind === "stoma" && stomaId) this.owners.set(stomaId, Promise.resolve(personId));
  }

  private async personFaults({ kind, personId }: Entry): Promise<Fault[]> {
    if (personId === null || kind === "person") return [];
    const known = remembered(this.people, personId, () => this.isInStore(personId));
    return (await known)
      ? []
      : [fault("personId", "names no person before it", personId, "a person's entry first")];
  }

  private async stomaFaults({ kind, personId, stomaId }: Entry): Promise<Fault[]> {
    if (stomaId === null) return [];
    const owner = await remembered(this.owners, stomaId, () => this.ownerInStore(personId, stomaId));
    if (owner === personId || (owner === null && kind === "stoma")) return [];
    const problem = owner === null ? "names no stoma before it" : "is a stoma of another person";
    return [fault("stomaId", problem, stomaId, "a stoma of this person")];
  }

  private async targetFaults({ corrects, kind, personId, stomaId }: Entry): Promise<Fault[]> {
    if (!corrects) return [];
    const target = this.entries.get(corrects.id) ?? (await this.store.entry(this.clinicId, corrects.id));
    if (!target) return [fault("corrects.id", "names no entry before it", corrects.id, "the id of an entry")];
    const same = target.kind === kind && target.personId === personId && target.stomaId === stomaId;
    return same
      ? []
      : [fault("corrects.id", "names an entry about something else", corrects.id, `a ${kind} entry`)];
  }

  private async isErased(personId: string | null): Promise<boolean> {
    if (personId === null) return false;
    return remembered(this.erased, personId, async () => {
      const erased = await this.store.erasedAmong(this.clinicId, [personId]);
      return erased.length > 0;
    });
  }

  private async isInStore(personId: string): Promise<boolean> {
    return this.has(personId, "person", null);
  }

  /** A stoma that was taken back has no owner on the lists, but still is its person's. */
  private async ownerInStore(personId: string | null, stomaId: string): Promise<string | null> {
    const owner = await this.store.ownerOfStoma(this.clinicId, stomaId);
    if (owner !== null || personId === null) return owner;
    return (await this.has(personId, "stoma", stomaId)) ? personId : null;
  }

  private async has(personId: string, kind: Kind, stomaId: string | null): Promise<boolean> {
    const entries = await this.store.entriesOfPerson(this.clinicId, personId);
    return entries.some((entry) => entry.kind === kind && (stomaId === null || entry.stomaId === stomaId));
  }
}

function remembered<T>(known: Map<string, Promise<T>>, key: string, look: () => Promise<T>): Promise<T> {
  const found = known.get(key) ?? look();
  known.set(key, found);
  return found;
}

function fault(path: string, problem: string, got: unknown, expected: string): Fault {
  return { path, problem, got, expected };
}
