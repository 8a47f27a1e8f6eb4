import type { Chance } from "./chance.ts";
import { changeLog, momentOf, startOf } from "./changeLog.ts";
import { type Cut, type Measured, measuredAndCut } from "./measuring.ts";
import type { Moment, Pen } from "./pen.ts";
import type { DaysAgo, Scenario, StomaScenario } from "./scenario.ts";

/** Clock times of what happens at a visit, in the order in which it is written down. */
const visit = { person: 9, stoma: 9.1, measured: 9.5, cut: 9.7, fitted: 9.9, event: 13, noted: 13.5 };

/** Writes down everything that a scenario says happened. */
export function tell(scenario: Scenario, pen: Pen, chance: Chance): void {
  const personId = pen.newId();
  const { ageYears, ...details } = scenario.person;
  const knownSince = Math.max(...scenario.stomas.map((stoma) => stoma.knownSince));
  const { homeSince } = scenario;
  pen.write(
    "person",
    { daysAgo: knownSince, hour: visit.person },
    {
      ...details,
      birthDate: pen.date(Math.round(ageYears * 365.25)),
      ...(homeSince === undefined ? {} : { homeOn: pen.date(homeSince) }),
    },
    { personId },
  );
  const stomaIds = scenario.stomas.map((stoma) => tellStoma(stoma, { scenario, personId }, pen, chance));
  for (const { what, daysAgo, stoma, note } of scenario.events ?? []) {
    const stomaId = stoma === undefined ? undefined : stomaIds[stoma];
    pen.write(
      "event",
      { daysAgo, hour: visit.event },
      { what, ...(note ? { note } : {}) },
      { personId, stomaId },
    );
  }
  for (const { daysAgo, text } of scenario.notes ?? []) {
    pen.write("noted", { daysAgo, hour: visit.noted }, { text }, { personId });
  }
}

interface Whose {
  scenario: Scenario;
  personId: string;
}

function tellStoma(stoma: StomaScenario, { scenario, personId }: Whose, pen: Pen, chance: Chance): string {
  const about = { personId, stomaId: pen.newId() };
  const { type, construction, side, label, surgery } = stoma;
  pen.write(
    "stoma",
    { daysAgo: stoma.knownSince, hour: visit.stoma },
    {
      type,
      construction,
      side,
      ...(label === undefined ? {} : { label }),
      ...(surgery === null
        ? {}
        : { surgeryOn: { date: pen.date(surgery.daysAgo), precision: surgery.precision ?? "day" } }),
    },
    about,
  );
  for (const { measured, cut } of measuredAndCut(stoma)) {
    const measuredId = measured ? tellMeasured(measured, about, pen) : undefined;
    if (cut) tellCut(cut, measuredId, about, pen);
  }
  for (const worn of stoma.systems) {
    const when: Moment = { daysAgo: worn.since, hour: visit.fitted };
    const { system, planDays, note } = worn;
    pen.write("fitted", when, { system, plannedIntervalDays: planDays, ...(note ? { note } : {}) }, about);
  }
  tellChanges(stoma, { ...about, reportedBy: whoReports(scenario) }, pen, chance);
  return about.stomaId;
}

function whoReports({ person }: Scenario): string | undefined {
  if (person.caredForBy === "nurse") return undefined;
  return person.caredForBy === "helper" ? person.helperName : person.name;
}

type About = { personId: string; stomaId: string; reportedBy?: string };

/** A reading; one that was first written down wrong is followed by its correction the next morning. */
function tellMeasured({ daysAgo, body, slip }: Measured, about: About, pen: Pen): string {
  const when = { daysAgo, hour: visit.measured };
  if (!slip) return pen.write("measured", when, body, about);
  const first = pen.write("measured", when, { ...body, shape: slip.shape }, about);
  const { reason } = slip;
  const recorded = { daysAgo: daysAgo - 1, hour: visit.measured };
  pen.write("measured", when, body, { ...about, corrects: { id: first, as: "replace" }, reason, recorded });
  return first;
}

function tellCut({ daysAgo, body }: Cut, measuredId: string | undefined, about: About, pen: Pen): void {
  pen.write("cut", { daysAgo, hour: visit.cut }, { ...body, ...(measuredId ? { measuredId } : {}) }, about);
}

function tellChanges(stoma: StomaScenario, about: About, pen: Pen, chance: Chance): void {
  const firstOn = new Set(stoma.systems.map(startOf));
  for (const { atDays, body, lastSoundDays } of changeLog(stoma, chance)) {
    const lastSoundAt = lastSoundDays === undefined ? undefined : pen.instant(momentOf(lastSoundDays));
    const inClinic = firstOn.has(atDays);
    pen.write(
      "changed",
      momentOf(atDays),
      { ...body, ...(lastSoundAt ? { lastSoundAt } : {}) },
      inClinic ? { ...about, reportedBy: undefined } : about,
    );
  }
  if (stoma.takenBack) tellTakenBack(stoma.takenBack, about, pen);
}

function tellTakenBack(
  { daysAgo, reason }: { daysAgo: DaysAgo; reason: string },
  about: About,
  pen: Pen,
): void {
  const when = { daysAgo, hour: 18 };
  const body = { what: "barrier", why: "leakPastEdge" } as const;
  const id = pen.write("changed", when, body, about);
  const recorded = { daysAgo: daysAgo - 1, hour: 11 };
  pen.write("changed", when, body, { ...about, corrects: { id, as: "retract" }, reason, recorded });
}
