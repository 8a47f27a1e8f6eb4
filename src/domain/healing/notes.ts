import { type Note, note } from "../note.ts";
import type { Rise } from "./rising.ts";

/** Codes of the notes that say the opening in use fails as things stand. */
export const openingFails: readonly string[] = ["openingTooSmall", "openingTooLarge", "openingFailsTogether"];

export const tooFewReadings = (readings: number, needed: number): Note =>
  note("tooFewReadings", `A forecast needs ${needed} readings; there ${areReadings(readings)}.`, {
    readings,
    needed,
  });

export const tooShortSpan = (days: number, needed: number): Note =>
  note(
    "tooShortSpan",
    `A forecast needs ${needed} days between first and last reading; there are ${shown(days)}.`,
    { days, needed },
  );

export const oneDayOnly = (): Note =>
  note("oneDayOnly", "All readings are of one day: they say nothing of how the size changes.");

export const noCurve = (): Note =>
  note(
    "noCurve",
    "Least squares finds no curve: the readings are level, straight, too few days, or bend the other way.",
  );

export const noDegreesOfFreedom = (readings: number): Note =>
  note(
    "noDegreesOfFreedom",
    `The curve passes through all ${readings} readings, so nothing is left to tell its errors by.`,
    { readings },
  );

export const weakPrior = (): Note =>
  note(
    "weakPrior",
    "No trustworthy shrink curve is published: the readings rule, from wide assumptions that the protocol states.",
  );

export const plainLeastSquares = (): Note =>
  note(
    "plainLeastSquares",
    "Plain least squares: each size is taken as equally exact; guide steps and stated errors are not used.",
  );

export const startNotSeen = (firstDay: number): Note =>
  note(
    "startNotSeen",
    `The first reading is from day ${shown(firstDay)}: the size at surgery is an assumption more than a finding.`,
    { firstDay },
  );

export const cutFromReading = (): Note =>
  note("cutFromReading", "Cut from the size last measured, the ring that cleared; never from this forecast.");

export const rising = ({ fromDay, untilDay, onDay, byMm }: Rise): Note =>
  note(
    "rising",
    `The size on day ${shown(onDay)} is ${shown(byMm)} mm above that of ${daysWords(fromDay, untilDay)}, more than ` +
      "measuring explains. Unexpected by now: ask about blockage, hernia and prolapse.",
    { fromDay, untilDay, onDay, byMm },
  );

export const noFitWhileRising = (): Note =>
  note(
    "noFitWhileRising",
    "While the size rises the curve of a shrinking stoma says nothing of how long an opening fits: measure before each cutting.",
  );

export const largerRing = (): Note =>
  note(
    "largerRing",
    "The last ring is larger than an earlier one. Within the guide's step that may be noise: look again at the next change.",
  );

export const openingTooSmall = (sinceDay: number): Note =>
  note(
    "openingTooSmall",
    `Since about day ${shown(sinceDay)} the opening is inside the stoma: it can cut or constrict. Measure and cut anew.`,
    { sinceDay },
  );

export const openingTooLarge = (sinceDay: number, maxGapMm: number): Note =>
  note(
    "openingTooLarge",
    `Since about day ${shown(sinceDay)} more than ${maxGapMm} mm of skin is bare on each side. Measure and cut anew.`,
    { sinceDay, maxGapMm },
  );

export const openingFailsTogether = (sinceDay: number): Note =>
  note(
    "openingFailsTogether",
    `Length and width taken together, the opening more likely than not fits no longer, since about day ${shown(sinceDay)}. ` +
      "Measure and cut anew.",
    { sinceDay },
  );

export const fitInDoubt = (maxGapMm: number): Note =>
  note(
    "fitInDoubt",
    `The opening may fit no longer: the readings leave room for more than ${maxGapMm} mm bare on each side, or for a ` +
      "stoma larger than the opening. A tracing settles it; a smaller gap leaves more room for the guide's step.",
    { maxGapMm },
  );

export const beyondHorizon = (limit: "lower80" | "estimate" | "upper80", horizonDay: number): Note =>
  note("beyondHorizon", `${horizonWords[limit]} lies beyond day ${shown(horizonDay)}, or never comes.`, {
    limit,
    horizonDay,
  });

export const settledBeyondHorizon = (horizonDay: number): Note =>
  note("settledBeyondHorizon", `The size is not expected to settle by day ${shown(horizonDay)}.`, {
    horizonDay,
  });

export const advisedDays = (measureAgainOnDay: number, cutAheadUntilDay: number | null): Note =>
  note(
    "advisedDays",
    `Measure again by day ${shown(measureAgainOnDay)}. ` +
      (cutAheadUntilDay === null
        ? "Cut no barrier ahead."
        : `Cut barriers ahead no further than day ${shown(cutAheadUntilDay)}.`),
    { measureAgainOnDay, cutAheadUntilDay },
  );

const horizonWords = {
  lower80: "Even the early limit of the day the opening stops fitting",
  estimate: "The day the opening stops fitting",
  upper80: "The late limit of the day the opening stops fitting",
};

function daysWords(fromDay: number, untilDay: number): string {
  return fromDay === untilDay ? `day ${shown(fromDay)}` : `days ${shown(fromDay)} to ${shown(untilDay)}`;
}

function areReadings(readings: number): string {
  return readings === 1 ? "is 1" : `are ${readings}`;
}

/** To a tenth, for sentences only. */
function shown(value: number): string {
  return String(Math.round(value * 10) / 10);
}

/** A note about one axis of an oval. */
export const ofAxis = (axis: "length" | "width", { code, params, text }: Note): Note =>
  note(code, `${axis === "length" ? "Length" : "Width"}: ${text}`, { ...params, axis });
