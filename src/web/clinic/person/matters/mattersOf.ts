import type { Reason } from "../../../../domain/attention/index.ts";
import { addDays, type PlainDate } from "../../../../domain/calendar.ts";
import type { Note } from "../../../../domain/note.ts";
import type { Healing, OvertakenSheet, StomaStory } from "../../../../record/story/index.ts";
import { mm, plainDay, range } from "../../../shared/words/index.ts";
import type { Outlook } from "../outlook.ts";

/** A sentence that decides, with the spread and the protocol values behind it. */
export interface Matter {
  code: string;
  text: string;
  range: string | null;
  protocolValues: Reason["protocol"];
}

/** Reasons first, then when the opening stops fitting, then what the healing curve itself has to say. */
export function mattersOf(stoma: StomaStory, { reasons, healing }: Outlook, today: PlainDate): Matter[] {
  const said: Matter[] = reasons.map((reason) => ({
    code: reason.code,
    text: reason.text,
    range: isAboutOpening(reason) && healing ? fittedUntil(healing, today) : null,
    protocolValues: reason.protocol,
  }));
  if (stoma.overtakenSheet) said.unshift(sheetMatter(stoma.overtakenSheet, today));
  if (!healing) return said;
  const opens = stoma.openings.length > 0 && !reasons.some(isAboutOpening);
  const fits = opens ? fitsMatter(healing, today) : null;
  return [...said, ...(fits ? [fits] : []), ...curveMatters(healing)];
}

function sheetMatter({ sheetNumber, madeOn }: OvertakenSheet, today: PlainDate): Matter {
  return {
    code: "sheetOvertaken",
    text: `Cutting sheet ${sheetNumber} of ${plainDay(madeOn, today)} rests on an entry that was corrected since: its opening may be wrong.`,
    range: null,
    protocolValues: [],
  };
}

const aboutOpening = ["openingTooSmall", "openingTooLarge", "openingOutgrown"];

function isAboutOpening({ code }: Reason): boolean {
  return aboutOpening.includes(code);
}

function fitsMatter(healing: Healing, today: PlainDate): Matter | null {
  if (!healing.fitsUntilDay) return null;
  const until = healing.fitsUntilDay.estimate;
  const horizonDay = healing.notes.find(({ code }) => code === "beyondHorizon")?.params.horizonDay;
  const text =
    until === null
      ? `The opening in use fits beyond ${dayWords(Number(horizonDay), healing, today)}, as far as the curve is followed.`
      : `The opening in use fits until ${dayWords(until, healing, today)}.`;
  return { code: "fitsUntil", text, range: fitsRange(healing, today), protocolValues: [] };
}

/** Beside a reason that the opening no longer fits: the day by which the curve puts its end, and how surely. */
function fittedUntil(healing: Healing, today: PlainDate): string | null {
  const until = healing.fitsUntilDay?.estimate ?? null;
  if (until === null) return null;
  const range = fitsRange(healing, today);
  return `By the curve it fits until ${dayWords(until, healing, today)}${range ? `; ${range}` : ""}`;
}

function fitsRange(healing: Healing, today: PlainDate): string | null {
  const { lower80 = null, upper80 = null } = healing.fitsUntilDay ?? {};
  if (lower80 === null) return null;
  const from = dayWords(lower80, healing, today);
  if (upper80 === null) return `80 % range: ${from} or later`;
  return `80 % range: ${range(from, dayWords(upper80, healing, today))}`;
}

/** Day of recovery and calendar date together; the date alone where nobody knows the day of surgery. */
export function dayWords(
  day: number,
  { clockStartOn, surgeryKnown }: Pick<Healing, "clockStartOn" | "surgeryKnown">,
  today: PlainDate,
): string {
  const on = plainDay(addDays(clockStartOn, Math.floor(day)), today);
  return surgeryKnown ? `day ${Math.floor(day)}, ${on}` : on;
}

/** What the curve says that is not said elsewhere: a rise, a doubt, or why there is no forecast yet. */
const saidHere = [
  "rising",
  "largerRing",
  "fitInDoubt",
  "tooFewReadings",
  "tooShortSpan",
  "oneDayOnly",
  "noCurve",
];

function curveMatters(healing: Healing): Matter[] {
  const notes = healing.narrowest ? [...healing.longest.notes, ...healing.narrowest.notes] : healing.notes;
  const first = new Map(
    notes
      .filter(({ code }) => saidHere.includes(code))
      .reverse()
      .map((one) => [one.code, one]),
  );
  return saidHere.flatMap((code) => {
    const found = first.get(code);
    return found ? [{ code, text: curveText(found, healing), range: null, protocolValues: [] }] : [];
  });
}

/** A rise is told with days of recovery; where nobody knows them it is told without. */
function curveText({ code, params, text }: Note, { surgeryKnown }: Healing): string {
  if (code !== "rising" || surgeryKnown) return text;
  return `The last size is ${mm(Number(params.byMm))} above an earlier one, more than measuring explains. Ask about blockage, hernia and prolapse.`;
}
