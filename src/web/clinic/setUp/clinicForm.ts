import type { BodyOf } from "../../../record/entry/index.ts";
import type { ClinicDetails } from "../../shared/api/index.ts";

export interface ClinicForm {
  name: string;
  timeZone: string;
  nurseName: string;
  nursePhone: string;
  outOfHoursPhone: string;
  emergencyNumber: string;
  paper: "A4" | "Letter";
}

/** What the form begins with: the details on record, or what the browser knows. */
export function beginClinicForm(details: BodyOf<"clinic"> | undefined, browserZone: string): ClinicForm {
  return {
    name: details?.name ?? "",
    timeZone: details?.timeZone ?? browserZone,
    nurseName: details?.nurse.name ?? "",
    nursePhone: details?.nursePhone ?? "",
    outOfHoursPhone: details?.outOfHoursPhone ?? "",
    emergencyNumber: details?.emergencyNumber ?? "",
    paper: details?.paper ?? "A4",
  };
}

export type Wrong = Partial<Record<keyof ClinicForm, string>>;

export function wrongIn(form: ClinicForm): Wrong {
  const wrong: Wrong = {};
  if (!form.name.trim()) wrong.name = "Write the name as it should stand on a cutting sheet.";
  if (!form.nurseName.trim()) wrong.nurseName = "Write the name that people are to ask for.";
  if (form.nursePhone.trim().length < 3) wrong.nursePhone = "Write the number that people are to call.";
  return wrong;
}

export function detailsOf(form: ClinicForm, nurseId: string | undefined): ClinicDetails {
  const typed = (text: string) => text.trim() || undefined;
  return {
    name: form.name.trim(),
    timeZone: form.timeZone,
    nurse: { ...(nurseId ? { id: nurseId } : {}), name: form.nurseName.trim() },
    nursePhone: form.nursePhone.trim(),
    outOfHoursPhone: typed(form.outOfHoursPhone),
    emergencyNumber: typed(form.emergencyNumber),
    paper: form.paper,
  };
}
