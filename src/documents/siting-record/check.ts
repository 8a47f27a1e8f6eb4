import { type Fault, InputError } from "../../domain/fault.ts";
import { checkPaper } from "../drawing/paper.ts";
import { canPrint } from "../drawing/typeface.ts";
import { isDay } from "../words.ts";
import type { SitingRecord } from "./input.ts";

/** As many places as the page has room for. */
export const mostMarks = 3;

/** Refuses a record that must not reach a surgeon, with every reason at once. @throws InputError */
export function checkRecord(record: SitingRecord): void {
  checkPaper(record.paper, record.printScale);
  const faults = [
    ...identifierFaults(record),
    ...dateFaults(record),
    ...textFaults(record),
    ...markFaults(record),
  ];
  if (faults.length > 0) throw new InputError(faults);
}

function identifierFaults({ person }: SitingRecord): Fault[] {
  if (!person.name.trim() || !canPrint(person.name)) {
    const expected = "the person's name, in Latin, Greek or Cyrillic letters";
    return [{ path: "person.name", problem: "cannot be printed", got: person.name, expected }];
  }
  if ([person.birthDate, person.identifier].some((text) => text && canPrint(text))) return [];
  const expected = "a birth date or an identifier beside the name: two identifiers";
  return [{ path: "person", problem: "has only one identifier", got: person.name, expected }];
}

function dateFaults({ madeOn, person }: SitingRecord): Fault[] {
  return Object.entries({ madeOn, "person.birthDate": person.birthDate }).flatMap(([path, date]) =>
    date === undefined || isDay(date)
      ? []
      : [{ path, problem: "is not a day of the calendar", got: date, expected: "YYYY-MM-DD" }],
  );
}

function textFaults({
  clinic,
  procedure,
  surgeonName,
  by,
  consent,
  marks,
  note,
  question,
}: SitingRecord): Fault[] {
  const texts: Record<string, string | undefined> = {
    "clinic.name": clinic.name,
    "clinic.nursePhone": clinic.nursePhone,
    procedure,
    surgeonName,
    by,
    "consent.representativeName": consent.representativeName,
    note,
    ...Object.fromEntries(marks.map((mark, at) => [`marks.${at}.note`, mark.note])),
    ...Object.fromEntries(question.landmarks.map(({ label }, at) => [`landmarks.${at}.label`, label])),
  };
  return Object.entries(texts).flatMap(([path, text]) =>
    text === undefined || canPrint(text)
      ? []
      : [
          {
            path,
            problem: "cannot be printed",
            got: text,
            expected: "text in Latin, Greek or Cyrillic letters",
          },
        ],
  );
}

function markFaults({ marks }: SitingRecord): Fault[] {
  if (marks.length >= 1 && marks.length <= mostMarks) return [];
  const expected = `1 to ${mostMarks} marked places`;
  return [{ path: "marks", problem: "do not fit on the page", got: marks.length, expected }];
}
