import type { Transaction } from "kysely";
import type { PlainDate } from "../../domain/calendar.ts";
import type { Entry, StoredEntry } from "../entry/index.ts";
import type { PersonRow, StomaRow, WearRow } from "../projection/rows.ts";
import type { RecordTables } from "./schema.ts";

/** An id that is already in the record with other content, or a correction that came second. */
export class ConflictError extends Error {
  readonly code: "idReused" | "alreadyCorrected";
  /** The entry that stands in the way. */
  readonly existing: StoredEntry;
  constructor(code: ConflictError["code"], existing: StoredEntry) {
    super(
      code === "idReused"
        ? `entry ${existing.id} is already in the record with other content`
        : `entry ${existing.corrects?.id} was already corrected, by entry ${existing.id}`,
    );
    this.name = "ConflictError";
    this.code = code;
    this.existing = existing;
  }
}

/** The healing fit of one stoma as lists need it; refreshed after the entry's transaction. */
export interface FitRow {
  stomaId: string;
  fitsUntilOn: PlainDate | null;
  fitsUntilLowerOn: PlainDate | null;
  fitsUntilUpperOn: PlainDate | null;
  programVersion: string;
  protocolVersion: number;
}

/** One stoma on the caseload with the facts behind its reasons. */
export interface CaseloadRow {
  person: PersonRow;
  stoma: StomaRow;
  fit: FitRow | null;
  wears: WearRow[];
}

/** Limits of the protocol as the caseload is searched by them today. */
export interface CaseloadLimits {
  today: PlainDate;
  maxGapMm: number;
  /** A stoma counts as new through this day after its clock started. */
  newStomaDays: number;
  /** Last measured on or before this day, a new stoma and a settled one are due. */
  newMeasuredBy: PlainDate;
  settledMeasuredBy: PlainDate;
  /** Due since this day, they have waited no day past it. */
  measureEveryDays: { new: number; settled: number };
  /** So many ends of a kind since then give a reason. */
  unplanned: { count: number; sinceMs: number };
  short: { count: number; sinceMs: number };
  /** Below this a wear is short: its share of its own plan, and never more than what holds for its closure. */
  shortBelowDays: { shareOfPlan: number; atMost: number; closed: number; other: number };
}

/** One reason, or several of one kind, by which the caseload is searched. */
export type CaseloadSearch =
  | "fitEnded"
  | "tooSmall"
  | "tooLarge"
  | "settledDue"
  | "newDue"
  | "unplanned"
  | "short";

/** Where a reason puts a stoma on the list: more urgent level, longer wait, name, id. */
export interface CaseloadPlace {
  level: "sameDay" | "nextContact";
  waitedDays: number;
  searchText: string;
  stomaId: string;
}

export interface PeoplePage {
  people: (PersonRow & { stomas: StomaRow[] })[];
  /** Pass to get the following page; null at the end. */
  next: string | null;
}

export type Progress = (done: number, total: number) => void;

/** What the entries rest on was read before somebody else wrote about the same person: read again, and think again. */
export class MovedOnError extends Error {
  readonly code = "movedOn";
  constructor() {
    super("the record has moved on since it was read");
    this.name = "MovedOnError";
  }
}

export interface AppendOptions {
  onProgress?: Progress;
  /** The entries rest on everything written about a person up to a cursor; where there is more, none is written. */
  restsOn?: { personId: string; readThrough: number };
  alongside?: (trx: Transaction<RecordTables>) => Promise<void>;
}

/** What stands beside entries that somebody else makes and appends. */
export type Alongside = (entries: readonly Entry[]) => NonNullable<AppendOptions["alongside"]>;

/**
 * Where the record is kept. Callers never see which engine it is. Every promise that resolves after a write
 * means that the write is on disk.
 */
export interface RecordStore {
  /**
   * Appends entries, all or none, and updates the projections of the people they are about.
   * An entry that is already there with the same content is left alone: retries are harmless.
   * What stands beside them, such as a line of the audit, is written in the same transaction: kept or lost with
   * them. Where the connection was lost the transaction is tried again, and with it what stands beside.
   * @throws {ConflictError}
   * @throws {ErasedError} where one is about somebody who was erased
   * @throws {MovedOnError} where what they rest on has moved on
   */
  append(entries: readonly Entry[], options?: AppendOptions): Promise<StoredEntry[]>;
  /** Those of these people who were erased from the clinic's record. */
  erasedAmong(clinicId: string, personIds: readonly string[]): Promise<string[]>;
  clinicIds(): Promise<string[]>;
  /** Entries about the clinic itself: its details and its protocol. */
  clinicEntries(clinicId: string): Promise<StoredEntry[]>;
  entry(clinicId: string, id: string): Promise<StoredEntry | null>;
  entriesOfPerson(clinicId: string, personId: string): Promise<StoredEntry[]>;
  /** Entries in commit order after a cursor, for sync and export. */
  entriesAfter(clinicId: string, cursor: number, limit: number): Promise<StoredEntry[]>;
  people(clinicId: string, query: { text: string; after: string | null; limit: number }): Promise<PeoplePage>;
  counts(clinicId: string): Promise<{ people: number; active: number; entries: number }>;
  /** Stomas that one search finds, in the order of the list, after a place; each a bounded read of an index. */
  caseload(
    clinicId: string,
    search: CaseloadSearch,
    limits: CaseloadLimits,
    page: { after: CaseloadPlace | null; limit: number },
  ): Promise<CaseloadPlace[]>;
  /** The facts behind the reasons of some stomas; of those that are not active, none. */
  caseloadFacts(clinicId: string, stomaIds: readonly string[], wearsSinceMs: number): Promise<CaseloadRow[]>;
  /** How many people the searches find, each counted once, at the most urgent level. */
  caseloadCounts(clinicId: string, limits: CaseloadLimits): Promise<Record<CaseloadPlace["level"], number>>;
  /** Stomas whose fit is older than their readings, or made by another program or protocol. */
  staleFits(
    clinicId: string,
    version: Pick<FitRow, "programVersion" | "protocolVersion">,
    limit: number,
  ): Promise<{ personId: string; stomaId: string }[]>;
  /** Keeps a fit that was made from a person's entries up to a cursor; it stays stale where there are later ones. */
  saveFit(clinicId: string, fit: FitRow, readThrough: number): Promise<void>;
  /** The person who has this stoma; null when nobody of the clinic does. */
  ownerOfStoma(clinicId: string, stomaId: string): Promise<string | null>;
  /** Makes every projection anew from the entries. */
  rebuild(options?: {
    onProgress?: Progress;
    signal?: AbortSignal;
  }): Promise<{ people: number; entries: number }>;
  /** What is kept about the folder itself, such as whether it holds the demo. */
  mark(name: string): Promise<string | null>;
  setMark(name: string, value: string): Promise<void>;
  close(): Promise<void>;
}
