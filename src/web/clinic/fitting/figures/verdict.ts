import { addDays, calendarDaysBetween, type PlainDate } from "../../../../domain/calendar.ts";
import { counted, longDay, plainDay } from "../../../shared/words/index.ts";
import type { Outlook } from "./useForecast.ts";

/** How long an opening fits, in words, with figures for tests. */
export type Verdict =
  | { kind: "until"; day: number; on: PlainDate; passed: boolean; rangeWords: string }
  /** No day within the forecast's reach; the early limit of the range may still lie within it. */
  | {
      kind: "beyond";
      day: number;
      on: PlainDate;
      earliest: { day: number; on: PlainDate } | null;
      rangeWords: string;
    }
  | { kind: "unknown"; why: string[] };

/** What the curve says of one opening. `readings` is how many it rests on. */
export function verdictOf(outlook: Outlook, readings: number, today: PlainDate): Verdict {
  const { fitsUntilDay, clockStartOn } = outlook;
  if (!fitsUntilDay) return { kind: "unknown", why: reasonsFor(outlook) };
  const rangeWords = `80 % range: ${rangeOf(outlook, today)}, from ${counted(readings, "reading", "readings")}.`;
  if (fitsUntilDay.estimate === null) {
    const day = horizonDay(outlook);
    const early = fitsUntilDay.lower80 === null ? null : Math.floor(fitsUntilDay.lower80);
    const earliest = early === null ? null : { day: early, on: addDays(clockStartOn, early) };
    return { kind: "beyond", day, on: addDays(clockStartOn, day), earliest, rangeWords };
  }
  const day = Math.floor(fitsUntilDay.estimate);
  const on = addDays(clockStartOn, day);
  return { kind: "until", day, on, passed: calendarDaysBetween(on, today) > 0, rangeWords };
}

/** "day 44", or the date where nobody knows the day of surgery. */
export function dayWords(day: number, on: PlainDate, surgeryKnown: boolean, today: PlainDate): string {
  return surgeryKnown ? `day ${day}` : plainDay(on, today);
}

/** "day 34, Wednesday 2 December" */
export function fullDayWords(day: number, on: PlainDate, surgeryKnown: boolean): string {
  return surgeryKnown ? `day ${day}, ${longDay(on)}` : longDay(on);
}

/** A cell of the table. A proposed opening cannot have passed its day: it does not fit in the first place. */
export function shortVerdict(
  verdict: Verdict | null,
  surgeryKnown: boolean,
  today: PlainDate,
  proposed: boolean,
): string {
  if (!verdict || verdict.kind === "unknown") return "not known yet";
  const words = dayWords(verdict.day, verdict.on, surgeryKnown, today);
  if (verdict.kind === "beyond") {
    const { earliest } = verdict;
    if (!earliest) return `beyond ${words}`;
    return `${dayWords(earliest.day, earliest.on, surgeryKnown, today)} or later`;
  }
  if (!verdict.passed) return words;
  return proposed ? "does not, by the curve" : `passed, ${words}`;
}

function rangeOf({ fitsUntilDay, clockStartOn, surgeryKnown }: Outlook, today: PlainDate): string {
  const words = (day: number) =>
    dayWords(Math.floor(day), addDays(clockStartOn, Math.floor(day)), surgeryKnown, today);
  const { lower80, upper80 } = fitsUntilDay!;
  if (lower80 === null) return "later than the forecast reaches";
  if (upper80 === null) return `${words(lower80)} or later`;
  const [from, to] = [words(lower80), words(upper80)];
  if (from === to) return from;
  return surgeryKnown ? `${from} to ${Math.floor(upper80)}` : `${from} to ${to}`;
}

/** Each reason once: an oval has its reasons along both axes. */
function reasonsFor({ curves }: Outlook): string[] {
  const texts = curves.flatMap(({ notes }) =>
    notes.filter(({ code }) => noForecast.has(code)).map(({ text }) => text),
  );
  return [...new Set(texts)];
}

const noForecast = new Set([
  "noFitWhileRising",
  "tooFewReadings",
  "tooShortSpan",
  "oneDayOnly",
  "noCurve",
  "noDegreesOfFreedom",
]);

function horizonDay({ notes, measureAgainOnDay }: Outlook): number {
  const day = notes.find(({ code }) => code === "beyondHorizon")?.params.horizonDay;
  return typeof day === "number" ? Math.floor(day) : measureAgainOnDay;
}

/** What the curve warns of, as sentences; the proposed opening's own verdict is said elsewhere. */
export function warningsOf(outlook: Outlook): string[] {
  const texts = outlook.notes.filter(({ code }) => warnings.has(code)).map(({ text }) => text);
  return [...new Set(texts)];
}

const warnings = new Set(["rising", "largerRing", "fitInDoubt"]);
