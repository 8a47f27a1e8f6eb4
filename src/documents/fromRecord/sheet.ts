import { refuse } from "../../domain/fault.ts";
import { type BodyOf, dateOf, type PlainDate } from "../../record/entry/index.ts";
import { programVersion } from "../../record/programVersion.ts";
import { type ClinicStory, healingOf, type PersonStory, type StomaStory } from "../../record/story/index.ts";
import type { CuttingSheet } from "../cutting-sheet/index.ts";
import { cutFor, readingToCut } from "./cut.ts";
import { daysOf } from "./days.ts";
import type { SheetRequest } from "./request.ts";
import { methodInWords, stomaInWords, wordsShown } from "./words.ts";

/** When and by whom a sheet is made. */
export interface SheetBasis {
  on: PlainDate;
  by: string;
  demo: boolean;
}

/** A sheet and what the record keeps of it. */
export interface SheetFromRecord {
  sheet: CuttingSheet;
  body: BodyOf<"advised">;
}

/**
 * A cutting sheet for a measured stoma, with everything that it says computed from the record.
 * @throws {InputError} where there is no such stoma or measurement, where the opening cannot be cut from the system
 * in use, or where it would cut into the stoma as it was measured since
 */
export function sheetFromRecord(
  person: PersonStory,
  clinic: ClinicStory,
  request: SheetRequest,
  basis: SheetBasis,
): SheetFromRecord {
  const { protocol, details } = clinic;
  const stoma = person.stomas.find(({ stomaId }) => stomaId === request.stomaId);
  if (!stoma)
    return refuse("stomaId", "names no stoma of this person", request.stomaId, "one of their stomas");
  const reading = readingToCut(stoma, person, request.measuredId);
  const { notes, ...cut } = cutFor(stoma, reading, request.clearanceMm, protocol, basis.on);
  const healing = healingOf(stoma, protocol, { outline: cut.scissorPath.map(([x, y]) => [x, y]) });
  if (!healing) throw new Error("a stoma that was measured has a healing curve");

  const { name, birthDate, identifier } = person.details;
  const sheet: CuttingSheet = {
    clinic: phonesOf(clinic),
    person: { name, birthDate, identifier },
    stomaLabel: stomaInWords(stoma.details),
    madeOn: basis.on,
    by: basis.by,
    method: methodInWords(reading),
    ...cut,
    clearanceMm: request.clearanceMm,
    ...daysOf(stoma, healing, basis.on),
    ...numberOf(stoma, person),
    demo: basis.demo,
    protocol,
    paper: request.paper ?? details.paper,
    printScale: request.printScale,
  };
  const from = [
    reading.entryId,
    ...stoma.readings.map(({ entryId }) => entryId),
    stoma.detailsEntry.entry.id,
  ];
  const body: BodyOf<"advised"> = {
    what: "cuttingSheet",
    sheetNumber: sheet.sheetNumber,
    measuredId: request.measuredId,
    clearanceMm: request.clearanceMm,
    from: [...new Set(from)].slice(0, mostFrom),
    protocolVersion: clinic.protocolVersion,
    programVersion,
    words: wordsShown(sheet, [...notes, ...healing.notes]),
    paper: sheet.paper,
    ...(request.printScale ? { printScale: request.printScale } : {}),
  };
  return { sheet, body };
}

/** As many ids as an `advised` entry keeps. */
const mostFrom = 100;

function phonesOf({ details }: ClinicStory): CuttingSheet["clinic"] {
  const { name, nursePhone, outOfHoursPhone, emergencyNumber } = details;
  return { name, nursePhone, outOfHoursPhone, emergencyNumber };
}

/** The sheet's number and the last sheet before it; a number is never used twice, even of one taken back. */
function numberOf(
  { stomaId, sheets }: StomaStory,
  { history }: PersonStory,
): Pick<CuttingSheet, "sheetNumber" | "replaces"> {
  const numbers = history
    .flatMap(({ first, corrections }) => [first, ...corrections])
    .flatMap((entry) =>
      entry.kind === "advised" && entry.stomaId === stomaId ? [entry.body.sheetNumber] : [],
    );
  const byNumber = [...sheets].sort((a, b) => a.entry.body.sheetNumber - b.entry.body.sheetNumber);
  const last = byNumber.at(-1)?.entry;
  return {
    sheetNumber: Math.max(0, ...numbers) + 1,
    replaces: last && { sheetNumber: last.body.sheetNumber, madeOn: dateOf(last.at) },
  };
}
