import type { Draft } from "../../../record/entry/index.ts";
import { draftEntry, newId, nowIn } from "../../shared/api/index.ts";
import {
  atOf,
  type FittedForm,
  fittedForm,
  type PersonForm,
  personForm,
  type StomaForm,
  stomaForm,
  type WhenForm,
  type Wrong,
  whenNow,
} from "../kindForms/index.ts";

/** Everything typed about a person who is new to the clinic. The ids are made once, so that a retry is the same. */
export interface Admission {
  ids: { person: string; stoma: string; entries: [string, string, string] };
  person: PersonForm;
  stoma: StomaForm;
  hasSystem: boolean;
  system: FittedForm;
  systemSince: WhenForm;
}

export function blankAdmission(zone: string): Admission {
  return {
    ids: { person: newId(), stoma: newId(), entries: [newId(), newId(), newId()] },
    person: personForm.blank(),
    stoma: stomaForm.blank(),
    hasSystem: true,
    system: fittedForm.blank(),
    systemSince: { ...whenNow(zone), time: "" },
  };
}

export type AdmissionRead =
  | { entries: Draft[]; wrong?: undefined }
  | { entries?: undefined; wrong: { person: Wrong; stoma: Wrong; system: Wrong } };

/** Person, stoma and system as entries to be saved together, or what is missing. */
export function admissionEntries(admission: Admission, zone: string): AdmissionRead {
  const { ids, hasSystem } = admission;
  const person = personForm.read(admission.person, zone);
  const stoma = stomaForm.read(admission.stoma, zone);
  const system = hasSystem ? fittedForm.read(admission.system, zone) : null;
  const since = atOf(admission.systemSince, zone);
  const systemWrong = {
    ...system?.wrong,
    ...(hasSystem && !since ? { since: "Write the date since when it is used." } : {}),
  };
  if (person.wrong || stoma.wrong || Object.keys(systemWrong).length > 0) {
    return { wrong: { person: person.wrong ?? {}, stoma: stoma.wrong ?? {}, system: systemWrong } };
  }
  const at = nowIn(zone);
  const [personEntry, stomaEntry, systemEntry] = ids.entries;
  const about = { personId: ids.person, at };
  const entries: Draft[] = [
    draftEntry("person", person.body, { ...about, id: personEntry, stomaId: null }),
    draftEntry("stoma", stoma.body, { ...about, id: stomaEntry, stomaId: ids.stoma }),
  ];
  if (system?.body && since) {
    entries.push(
      draftEntry("fitted", system.body, { ...about, id: systemEntry, stomaId: ids.stoma, at: since }),
    );
  }
  return { entries };
}
