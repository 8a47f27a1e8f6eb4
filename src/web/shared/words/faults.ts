import type { Fault } from "../../../domain/fault.ts";

/** What a field of an entry is called on the page, by the end of its path. */
const fieldWords: Record<string, string> = {
  at: "When",
  reason: "Reason",
  name: "Name",
  birthDate: "Birth date",
  identifier: "Record number",
  phone: "Telephone",
  date: "Date of surgery",
  value: "Value",
  nursePhone: "Number in clinic hours",
  outOfHoursPhone: "Number out of hours",
  emergencyNumber: "Emergency number",
  timeZone: "Time zone",
  plannedIntervalDays: "Planned interval",
  preCutMm: "Pre-cut size",
  maxOpeningMm: "Widest opening",
  barrierAcrossMm: "Barrier across",
  starterHoleMm: "Starter hole",
  heightMm: "Height",
  stepMm: "Step of the guide",
  sdMm: "Uncertainty",
  diameterMm: "Diameter",
  lengthMm: "Length",
  widthMm: "Width",
  tiltDeg: "Tilt",
  clearanceMm: "Gap each side",
  leakHours: "Where it leaked",
  lastSoundAt: "Last seen sound",
  text: "Note",
  note: "Note",
};

/** A fault as a reader may see it: "Birth date: lies in the future. Expected today or earlier." */
export function faultWords({ path, problem, expected }: Fault): string {
  const end =
    path
      .split(".")
      .filter((step) => !/^\d+$/.test(step))
      .at(-1) ?? "";
  const named = fieldWords[end] ?? end;
  return `${named ? `${named}: ` : ""}${problem}. Expected ${expected}.`;
}
