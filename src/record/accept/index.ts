import { validate as isUuid } from "uuid";
import { type Fault, InputError } from "../../domain/fault.ts";
import {
  type Author,
  checkEntry,
  contradictions,
  type Entry,
  type Known,
  type StoredEntry,
} from "../entry/index.ts";
import { type Alongside, ErasedError, type RecordStore } from "../store/index.ts";
import { PersonSoFar } from "./personSoFar.ts";

/** Whose record is written to, by whom, and when. */
export interface Acceptance {
  author: Author;
  nowMs: number;
  /** Writes what stands beside these entries, in their transaction. */
  alongside?: Alongside;
}

/**
 * Takes drafts of entries into the record, all or none: adds the clinic, the author and the time of writing,
 * checks each against its kind, against the record and against the drafts before it, and appends.
 * @throws {InputError} with every fault found, paths as `entries.N.…`
 * @throws {ConflictError} as the store does
 * @throws {ErasedError} where one is about somebody who was erased, whatever else is wrong
 */
export async function acceptDrafts(
  store: RecordStore,
  clinic: { clinicId: string; details: { timeZone: string } },
  drafts: readonly unknown[],
  acceptance: Acceptance,
): Promise<StoredEntry[]> {
  const faults: Fault[] = [];
  const entries: Entry[] = [];
  const people = new Map<string, PersonSoFar>();
  await refuseErased(store, clinic.clinicId, drafts);
  for (const [index, draft] of drafts.entries()) {
    const stamped = stamp(draft, clinic.clinicId, acceptance);
    const checked = stamped.faults ? stamped : checkEntry(stamped.entry);
    const found = checked.entry
      ? await faultsBeside(store, clinic, checked.entry, entries, people, acceptance.nowMs)
      : checked.faults;
    faults.push(...found.map((fault) => ({ ...fault, path: joined(`entries.${index}`, fault.path) })));
    if (checked.entry && found.length === 0) {
      entries.push(checked.entry);
      if (checked.entry.personId) people.get(checked.entry.personId)?.add(checked.entry);
    }
  }
  if (faults.length > 0) throw new InputError(faults);
  return store.append(entries, { alongside: acceptance.alongside?.(entries) });
}

/** Whoever sends them learns that the person is gone, and can forget them too. */
async function refuseErased(store: RecordStore, clinicId: string, drafts: readonly unknown[]): Promise<void> {
  const named = drafts.flatMap((draft) => {
    const { personId } = (draft ?? {}) as { personId?: unknown };
    return typeof personId === "string" && isUuid(personId) ? [personId] : [];
  });
  const erased = await store.erasedAmong(clinicId, named);
  if (erased.length > 0) throw new ErasedError(erased);
}

/** What the server knows better than the writer is never taken from the writer. */
const stamps = ["clinicId", "by", "recordedAt"] as const;

function stamp(
  draft: unknown,
  clinicId: string,
  { author, nowMs }: Acceptance,
): { entry: unknown; faults?: undefined } | { entry?: undefined; faults: Fault[] } {
  if (draft === null || typeof draft !== "object" || Array.isArray(draft)) {
    return { faults: [{ path: "", problem: "is of the wrong type", got: draft, expected: "an entry" }] };
  }
  const own = stamps.filter((key) => Object.hasOwn(draft, key));
  if (own.length > 0) {
    const given = draft as Record<string, unknown>;
    return {
      faults: own.map((path) => ({
        path,
        problem: "is added by the bench",
        got: given[path],
        expected: "nothing",
      })),
    };
  }
  return { entry: { ...draft, clinicId, by: author, recordedAt: new Date(nowMs).toISOString() } };
}

/** Faults that need the record: an entry that is already there is left to the store, so that retries are harmless. */
async function faultsBeside(
  store: RecordStore,
  { clinicId, details }: { clinicId: string; details: { timeZone: string } },
  entry: Entry,
  accepted: readonly Entry[],
  people: Map<string, PersonSoFar>,
  nowMs: number,
): Promise<Fault[]> {
  if (await store.entry(clinicId, entry.id)) return [];
  const known: Known = { nowMs, zone: details.timeZone };
  const { corrects, personId, stomaId } = entry;
  if (corrects) {
    known.target =
      accepted.find(({ id }) => id === corrects.id) ?? (await store.entry(clinicId, corrects.id));
  }
  if (personId === null) return contradictions(entry, known);

  const person = people.get(personId) ?? new PersonSoFar(await store.entriesOfPerson(clinicId, personId));
  people.set(personId, person);
  if (stomaId !== null) Object.assign(known, person.stoma(stomaId));
  return [...(await belonging(store, clinicId, entry, person)), ...contradictions(entry, known)];
}

/** A stoma needs its person, and what is about a stoma needs that stoma. */
async function belonging(
  store: RecordStore,
  clinicId: string,
  { kind, personId, stomaId }: Entry,
  person: PersonSoFar,
): Promise<Fault[]> {
  if (kind === "person") return [];
  if (!person.exists) {
    return [
      {
        path: "personId",
        problem: "names no person of this record",
        got: personId,
        expected: "a known person",
      },
    ];
  }
  if (stomaId === null || person.hasStoma(stomaId)) return [];
  const owner = await store.ownerOfStoma(clinicId, stomaId);
  if (kind === "stoma" && owner === null) return [];
  const problem = owner === null ? "names no stoma of this person" : "is a stoma of another person";
  return [{ path: "stomaId", problem, got: stomaId, expected: "a stoma of this person" }];
}

function joined(prefix: string, path: string): string {
  return path ? `${prefix}.${path}` : prefix;
}
