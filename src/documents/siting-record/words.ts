import type { SitingPosture } from "../../domain/siting/index.ts";
import { plainDate } from "../words.ts";
import type { SitingMark, SitingRecord } from "./input.ts";

export const stomaWords: Record<SitingRecord["question"]["stomaType"], string> = {
  ileostomy: "ileostomy",
  colostomy: "colostomy",
  urostomy: "urostomy",
  fistula: "fistula",
  other: "stoma",
};

export const postureWords: Record<SitingPosture, string> = {
  lying: "lying",
  sitting: "sitting",
  bending: "bending forward",
  standing: "standing",
  usual: "usual chair or aid",
};

/** As short as a table needs. */
export const shortPostureWords: Record<SitingPosture, string> = {
  ...postureWords,
  bending: "bending",
  usual: "usual",
};

const signWords: Record<SitingMark["drawnAs"], string> = {
  cross: "marked with a cross",
  filledCircle: "marked with a filled circle",
  notDrawn: "not drawn on the skin",
};

const foundWords = {
  headRaise: "found by head raise",
  legLift: "found by leg lift",
  cough: "found by cough",
  notFound: "could not be found",
} as const;

export const rankWords = ["First choice", "Second choice", "Third choice"] as const;

/** "Planned: ileostomy, low anterior resection. Surgeon: …" */
export function plannedInWords({ question, procedure, surgeonName, emergency }: SitingRecord): string {
  const stoma = stomaWords[question.stomaType];
  const planned = `Planned: ${[stoma, procedure].filter(Boolean).join(", ")}`;
  return [emergency ? "EMERGENCY, short form" : "", planned, surgeonName ? `Surgeon: ${surgeonName}` : ""]
    .filter(Boolean)
    .join(" · ");
}

export function markInWords({ drawnAs, covered, note }: SitingMark): string {
  const sentence = `${signWords[drawnAs]}${covered ? ", under a transparent dressing" : ""}`;
  return `${sentence.charAt(0).toUpperCase()}${sentence.slice(1)}.${note ? ` Note: ${note.replace(/[.\s]+$/, "")}.` : ""}`;
}

export function muscleInWords({ muscleFoundBy }: SitingRecord): string {
  return muscleFoundBy
    ? `Muscle border ${foundWords[muscleFoundBy]}.`
    : "How the muscle border was found: not said.";
}

export function consentInWords({ consent, madeOn }: SitingRecord): string {
  const who = consent.by === "person" ? "The person" : `${consent.representativeName}, for the person,`;
  return consent.given
    ? `${who} agreed to be touched and marked (${consent.how}, ${plainDate(madeOn)}).`
    : `${who} did NOT agree to be touched and marked (${consent.how}, ${plainDate(madeOn)}).`;
}
