import { refuse } from "../../domain/fault.ts";
import { bodyMap } from "../../domain/siting/index.ts";
import { dateOf } from "../../record/entry/index.ts";
import type { ClinicStory, PersonStory } from "../../record/story/index.ts";
import type { Paper, PrintScale } from "../drawing/paper.ts";
import type { SitingRecord } from "../siting-record/index.ts";

/** What is asked of a siting record, apart from whose it is. */
export interface SitingRequest {
  /** The marking; the last one when left out. */
  markedId?: string | undefined;
  /** The clinic's paper unless given. */
  paper?: Paper | undefined;
  printScale?: PrintScale | undefined;
}

/** As many marks as the page shows, by rank. */
const mostMarks = 3;

/**
 * The siting record of a person's marking, as it now stands.
 * @throws {InputError} where nothing was marked, or not by that id
 */
export function sitingFromRecord(
  person: PersonStory,
  { details, protocol }: ClinicStory,
  { markedId, paper = details.paper, printScale }: SitingRequest,
  demo: boolean,
): SitingRecord {
  const marked = person.sited.filter(({ entry }) => entry.body.what === "marked");
  const found =
    markedId === undefined
      ? marked.at(-1)
      : marked.find(({ first, entry }) => [first.id, entry.id].includes(markedId));
  if (!found) return refuse("markedId", "names no marking of this person", markedId, "one of their markings");
  const { body, at, by } = found.entry;
  const { landmarks = [], stomaType, clearanceMm, barrierDiameterMm, quadrant, largeAbdomen } = body;
  const { name, birthDate, identifier } = person.details;
  return {
    clinic: { name: details.name, nursePhone: details.nursePhone },
    person: { name, birthDate, identifier },
    procedure: body.procedure,
    surgeonName: body.surgeonName,
    emergency: body.emergency ?? false,
    continentPlan: body.continentPlan ?? false,
    madeOn: dateOf(at),
    by: body.signedBy ?? by.name,
    question: { landmarks, stomaType, clearanceMm, barrierDiameterMm, quadrant, largeAbdomen },
    protocol,
    outline: body.readings && bodyMap(body.readings, protocol).outline,
    marks: [...(body.marks ?? [])].sort((a, b) => a.rank - b.rank).slice(0, mostMarks),
    postures: body.postures ?? [],
    muscleFoundBy: body.muscleFoundBy,
    sees: body.sees,
    reaches: body.reaches,
    consent: body.consent ?? { given: false, how: "spoken", by: "person" },
    note: body.note,
    demo,
    paper,
    printScale,
  };
}
