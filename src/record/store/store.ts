import type { PlainDate } from "../../domain/calendar.ts";
import type { Entry, StoredEntry } from "../entry/index.ts";
import type { PersonRow, StomaRow, WearRow } from "../projection/rows.ts";

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

/** Limits by which the caseload is searched; each becomes a range scan of an index. */
export interface CaseloadLimits {
  /** New stomas last measured on or before this day, and settled ones. */
  newSince: PlainDate;
  newMeasuredBy: PlainDate;
  settledMeasuredBy: PlainDate;
  maxGapMm: number;
  today: PlainDate;
  wearsSinceMs: number;
}

export interface PeoplePage {
  people: (PersonRow & { stomas: StomaRow[] })[];
  /** Pass to get the following page; null at the end. */
  next: string | null;
}

export type Progress = (done: number, total: number) => void;

/**
 * Where the record is kept. Callers never see which engine it is. Every promise that resolves after a write
 * means that the write is on disk.
 */
export interface RecordStore {
  /**
   * Appends entries, all or none, and updates the projections of the people they are about.
   * An entry that is already there with the same content is left alone: retries are harmless.
   * @throws {ConflictError}
   */
  append(entries: readonly Entry[], options?: { onProgress?: Progress }): Promise<StoredEntry[]>;
  clinicIds(): Promise<string[]>;
  /** Entries about the clinic itself: its details and its protocol. */
  clinicEntries(clinicId: string): Promise<StoredEntry[]>;
  entry(clinicId: string, id: string): Promise<StoredEntry | null>;
  entriesOfPerson(clinicId: string, personId: string): Promise<StoredEntry[]>;
  /** Entries in commit order after a cursor, for sync and export. */
  entriesAfter(clinicId: string, cursor: number, limit: number): Promise<StoredEntry[]>;
  people(clinicId: string, query: { text: string; after: string | null; limit: number }): Promise<PeoplePage>;
  counts(clinicId: string): Promise<{ people: number; active: number; entries: number }>;
  /** Stomas that may give a reason today: a superset of those that do, found by index. */
  caseload(clinicId: string, limits: CaseloadLimits): Promise<CaseloadRow[]>;
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
