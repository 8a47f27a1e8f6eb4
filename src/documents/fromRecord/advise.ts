import { InputError, refuse } from "../../domain/fault.ts";
import {
  type Author,
  checkEntry,
  dateOf,
  kinds,
  type PlainDate,
  type StoredEntry,
  todayIn,
} from "../../record/entry/index.ts";
import { type Alongside, ConflictError, onLatest, type RecordStore } from "../../record/store/index.ts";
import { type ClinicStory, clinicStory, type PersonStory, personStory } from "../../record/story/index.ts";
import { type CuttingSheet, cuttingSheet } from "../cutting-sheet/index.ts";
import type { SheetRequest } from "./request.ts";
import { sheetFromRecord } from "./sheet.ts";

export interface SheetAuthor {
  author: Author;
  nowMs: number;
  /** The record holds invented people: every page says so. */
  demo: boolean;
  /** Writes what stands beside the advice, in its transaction. */
  alongside?: Alongside;
}

export interface AdvisedSheet {
  sheet: CuttingSheet;
  pdf: Buffer;
  entry: StoredEntry<"advised">;
}

/**
 * Makes a cutting sheet and writes into the record that it was given. Asking again with the same `adviceId` draws
 * the sheet again from the record as it stood then, and writes nothing. Where somebody else writes about the person
 * meanwhile, it is made anew: no two sheets of a stoma have the same number.
 * @throws {InputError} where no sheet may be made
 * @throws {ConflictError} where the id belongs to another entry
 */
export async function adviseCuttingSheet(
  store: RecordStore,
  clinicId: string,
  request: SheetRequest,
  about: SheetAuthor,
): Promise<AdvisedSheet> {
  return onLatest(() => adviseNow(store, clinicId, request, about));
}

async function adviseNow(
  store: RecordStore,
  clinicId: string,
  request: SheetRequest,
  { author, nowMs, demo, alongside }: SheetAuthor,
): Promise<AdvisedSheet> {
  const before = await store.entry(clinicId, request.adviceId);
  if (before) return again(store, request, givenBefore(before, request), demo);
  const { person, clinic, readThrough } = await told(store, clinicId, request.personId);
  const on = todayIn(clinic.details.timeZone, nowMs);
  const { sheet, body } = sheetFromRecord(person, clinic, request, { on, by: author.name, demo });
  const pdf = await cuttingSheet(sheet);
  const instant = new Date(nowMs).toISOString();
  const checked = checkEntry({
    id: request.adviceId,
    clinicId,
    personId: request.personId,
    stomaId: request.stomaId,
    kind: "advised",
    schemaVersion: kinds.advised.version,
    at: { instant, zone: clinic.details.timeZone },
    recordedAt: instant,
    by: author,
    body,
  });
  if (!checked.entry) throw new InputError(checked.faults);
  const given = [checked.entry];
  const restsOn = { personId: request.personId, readThrough };
  const [entry] = await store.append(given, { restsOn, alongside: alongside?.(given) });
  return { sheet, pdf, entry: entry as StoredEntry<"advised"> };
}

/** The sheet that was given under this id. */
function givenBefore(before: StoredEntry, request: SheetRequest): StoredEntry<"advised"> {
  const same =
    before.kind === "advised" &&
    before.personId === request.personId &&
    before.stomaId === request.stomaId &&
    before.body.measuredId === request.measuredId &&
    before.body.clearanceMm === request.clearanceMm;
  if (!same) throw new ConflictError("idReused", before);
  return before;
}

async function again(
  store: RecordStore,
  request: SheetRequest,
  entry: StoredEntry<"advised">,
  demo: boolean,
): Promise<AdvisedSheet> {
  const { person, clinic } = await told(store, entry.clinicId, request.personId, entry.cursor);
  const { paper, printScale } = entry.body;
  const on: PlainDate = dateOf(entry.at);
  const basis = { on, by: entry.by.name, demo };
  const { sheet } = sheetFromRecord(person, clinic, { ...request, paper, printScale }, basis);
  return { sheet, pdf: await cuttingSheet(sheet), entry };
}

/** The stories of a person and the clinic, as they stood before an entry where one is given. */
async function told(
  store: RecordStore,
  clinicId: string,
  personId: string,
  beforeCursor = Number.POSITIVE_INFINITY,
): Promise<{ person: PersonStory; clinic: ClinicStory; readThrough: number }> {
  const [ofPerson, ofClinic] = await Promise.all([
    store.entriesOfPerson(clinicId, personId),
    store.clinicEntries(clinicId),
  ]);
  const person = personStory(ofPerson.filter(({ cursor }) => cursor < beforeCursor));
  const clinic = clinicStory(ofClinic.filter(({ cursor }) => cursor < beforeCursor));
  if (!person) return refuse("personId", "names no person of this record", personId, "a known person");
  if (!clinic) throw new Error("a person is kept by a clinic that was never set up");
  return { person, clinic, readThrough: ofPerson.at(-1)!.cursor };
}
