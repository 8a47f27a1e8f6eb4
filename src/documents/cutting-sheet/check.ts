import { type Fault, InputError } from "../../domain/fault.ts";
import { boundaryOf, dimensionsOf, type Outline, outlineOf } from "../../domain/outline/index.ts";
import { checkPaper } from "../drawing/paper.ts";
import { canPrint } from "../drawing/typeface.ts";
import { isDay } from "../words.ts";
import type { CuttingSheet } from "./input.ts";

/** What rounding may take from the stoma before the sheet is refused. */
const roundingMm = 0.01;

/** Sizes are printed to a tenth of a millimetre; what is said and what is drawn agree as closely. */
const sayingMm = 0.1;

/**
 * Refuses a sheet that must not be cut from, with every reason at once.
 *
 * @returns the sheet with its outlines counterclockwise
 * @throws InputError
 */
export function checkedSheet(sheet: CuttingSheet): CuttingSheet {
  const faults = [
    ...faultsIn(() => checkPaper(sheet.paper, sheet.printScale)),
    ...identifierFaults(sheet),
    ...dateFaults(sheet),
    ...textFaults(sheet),
    ...numberFaults(sheet),
    ...outlineFaults(sheet),
  ];
  if (faults.length > 0) throw new InputError(faults);
  const { stoma, opening, scissorPath } = sheet;
  return {
    ...sheet,
    stoma: outlineOf({ outline: stoma }),
    opening: outlineOf({ outline: opening }),
    scissorPath: outlineOf({ outline: scissorPath }),
  };
}

function identifierFaults({ person }: CuttingSheet): Fault[] {
  const identifiers = [person.birthDate, person.identifier].filter((text) => text && canPrint(text)).length;
  if (!person.name.trim()) {
    return [{ path: "person.name", problem: "is missing", got: person.name, expected: "the person's name" }];
  }
  if (canPrint(person.name)) {
    if (identifiers >= 1) return [];
    const expected = "a birth date or an identifier beside the name: two identifiers";
    return [{ path: "person", problem: "has only one identifier", got: person.name, expected }];
  }
  if (identifiers === 2) return [];
  const expected = "a birth date and an identifier, or the name in Latin, Greek or Cyrillic letters";
  const problem = "has a name that no typeface here can print, so both other identifiers are needed";
  return [{ path: "person", problem, got: person.name, expected }];
}

function dateFaults({
  madeOn,
  person,
  fitsUntil,
  fitsAtLeastUntil,
  measureAgainOn,
  replaces,
}: CuttingSheet): Fault[] {
  const dates: Record<string, string | undefined> = {
    madeOn,
    "person.birthDate": person.birthDate,
    "fitsUntil.on": fitsUntil?.on,
    "fitsAtLeastUntil.on": fitsAtLeastUntil?.on,
    measureAgainOn,
    "replaces.madeOn": replaces?.madeOn,
  };
  return Object.entries(dates).flatMap(([path, date]) =>
    date === undefined || isDay(date)
      ? []
      : [{ path, problem: "is not a day of the calendar", got: date, expected: "YYYY-MM-DD" }],
  );
}

function textFaults({ clinic, stomaLabel, method }: CuttingSheet): Fault[] {
  const texts: Record<string, string | undefined> = {
    "clinic.nursePhone": clinic.nursePhone,
    "clinic.outOfHoursPhone": clinic.outOfHoursPhone,
    "clinic.emergencyNumber": clinic.emergencyNumber,
    stomaLabel,
    method,
  };
  return Object.entries(texts).flatMap(([path, text]) => {
    if (text === undefined || (text.trim() && canPrint(text))) return [];
    const expected = "text in Latin, Greek or Cyrillic letters";
    return [{ path, problem: text.trim() ? "cannot be printed" : "is empty", got: text, expected }];
  });
}

function numberFaults(sheet: CuttingSheet): Fault[] {
  const numbers: Record<string, number | undefined> = {
    clearanceMm: sheet.clearanceMm,
    "gapEachSideMm.min": sheet.gapEachSideMm.min,
    "gapEachSideMm.max": sheet.gapEachSideMm.max,
    "holeAcrossMm.min": sheet.holeAcrossMm.min,
    "holeAcrossMm.max": sheet.holeAcrossMm.max,
    dayOfRecovery: sheet.dayOfRecovery,
    "fitsUntil.day": sheet.fitsUntil?.day,
    "fitsUntil.lowerDay": sheet.fitsUntil?.lowerDay,
    "fitsUntil.upperDay": sheet.fitsUntil?.upperDay,
    "fitsAtLeastUntil.day": sheet.fitsAtLeastUntil?.day,
  };
  return Object.entries(numbers).flatMap(([path, got]) =>
    got === undefined || Number.isFinite(got)
      ? []
      : [{ path, problem: "is not a number", got, expected: "a finite number" }],
  );
}

/** Each outline must be simple, the cut must go round the stoma, and the hole must be as wide as is said. */
function outlineFaults({ stoma, opening, scissorPath, holeAcrossMm }: CuttingSheet): Fault[] {
  const faults = Object.entries({ stoma, opening, scissorPath }).flatMap(([path, outline]) =>
    outline.flat().every(Number.isFinite)
      ? faultsIn(() => {
          outlineOf({ outline });
        }).map((fault) => ({ ...fault, path }))
      : [{ path, problem: "has a point that is no place", got: outline, expected: "finite millimetres" }],
  );
  if (faults.length > 0) return faults;
  return [...biteFaults(stoma, scissorPath), ...acrossFaults(opening, holeAcrossMm)];
}

function biteFaults(stoma: Outline, scissorPath: Outline): Fault[] {
  const [inStoma, outOfCut] = [boundaryOf(stoma), boundaryOf(scissorPath)];
  const got = Math.max(
    ...scissorPath.map(([x, y]) => -inStoma.signedGapMm(x, y)),
    ...stoma.map(([x, y]) => outOfCut.signedGapMm(x, y)),
  );
  if (got <= roundingMm) return [];
  const expected = "a cut that goes round the whole stoma";
  return [{ path: "scissorPath", problem: "cuts into the stoma, by mm", got, expected }];
}

/** A sheet never says one size and shows another. */
function acrossFaults(opening: Outline, got: { min: number; max: number }): Fault[] {
  const { feretMinMm, feretMaxMm } = dimensionsOf(opening);
  if (Math.abs(got.min - feretMinMm) <= sayingMm && Math.abs(got.max - feretMaxMm) <= sayingMm) return [];
  const expected = `the opening as drawn: ${feretMinMm.toFixed(2)} to ${feretMaxMm.toFixed(2)} mm`;
  return [{ path: "holeAcrossMm", problem: "is not the size of the opening", got, expected }];
}

function faultsIn(check: () => void): readonly Fault[] {
  try {
    check();
    return [];
  } catch (error) {
    if (error instanceof InputError) return error.faults;
    throw error;
  }
}
