import { calendarDaysBetween, type PlainDate } from "../calendar.ts";
import { type Level, type Note, note } from "../note.ts";
import { type Protocol, type ProtocolKey, protocolWith } from "../protocol/index.ts";
import { balanceMl, sodiumLossMmol, urineByWeightMl } from "./figures.ts";
import type { FluidReason } from "./reason.ts";
import { reasonsOn } from "./rules.ts";
import { type FluidTrend, trendOf } from "./trend.ts";

export const stomaTypes = ["ileostomy", "colostomy", "urostomy", "fistula", "other"] as const;

/** One day on the person's own calendar. What was not measured is left out: missing, not zero. */
export interface FluidDay {
  date: PlainDate;
  /** Hours of the day that the volumes cover. */
  hoursCovered: number;
  /** What came out of the stoma; of a urostomy it is urine. */
  stomaMl?: number;
  urineMl?: number;
  drinksMl?: number;
  weightKg?: number;
  /** Emptyings of a pouch half full or fuller, counted where volumes are not known. */
  halfFullEmpties?: number;
}

/** Limits that a clinician may set for one person. */
export const ownLimitKeys = [
  "outputWatchMl",
  "outputHighMl",
  "outputVeryHighMl",
  "outputUrgentMl",
  "urineLowMl",
  "urineVeryLowMl",
  "urineNoneMl",
  "weightLossDayKg",
  "weightLossFewDaysKg",
  "weightLossPercent",
  "weightLossMuchPercent",
] as const satisfies ProtocolKey[];
export type OwnLimits = Partial<Record<(typeof ownLimitKeys)[number], number>>;

export interface FluidInput {
  /** One entry a date, in any order. */
  days: readonly FluidDay[];
  stomaType: (typeof stomaTypes)[number];
  /** Left out where nobody knows: then the stoma counts as new. */
  surgeryOn?: PlainDate;
  birthDate?: PlainDate;
  setting: "hospital" | "home";
  pregnant?: boolean;
  /** A heart or kidney illness with a fluid plan of its own. */
  heartOrKidneyPlan?: boolean;
  ownLimits?: OwnLimits;
  /** The clinic's own values over the defaults. */
  protocol?: Partial<Record<ProtocolKey, number>>;
}

export interface FluidDayResult {
  date: PlainDate;
  /**
   * `none` only where the whole day's output is known and no limit was reached; null where nothing was reached but
   * something is missing, and always for a person who needs limits of their own.
   */
  level: Level | null;
  /** The level that the limits in force raise whatever is missing; null where they raise none. */
  raisedTo: Exclude<Level, "none"> | null;
  /** Most urgent first. */
  reasons: FluidReason[];
  needsOwnLimits: boolean;
  /** Figures of the day that are not known. */
  missing: ("wholeDay" | "stomaMl" | "urineMl" | "drinksMl" | "weightKg")[];
  /** Of an ileostomy; null for others, and where the output is missing. On a part day, so far. */
  sodiumLossMmol: number | null;
  /** Drinks less stoma less urine, of a whole day on which all are known. Food is not counted. */
  balanceMl: number | null;
  /** What a person of this weight is expected to pass, for comparison; no limit is drawn from it. */
  urineByWeightMl: number | null;
  notes: Note[];
}

export interface FluidResult {
  /** By date. */
  days: FluidDayResult[];
  trend: FluidTrend;
  notes: Note[];
}

/** A day of output, urine, drinks and weight against the protocol's limits, or the person's own. */
export function fluid(input: FluidInput): FluidResult {
  const protocol = { ...protocolWith(input.protocol), ...input.ownLimits };
  const days = [...input.days].sort((a, b) => (a.date < b.date ? -1 : 1));
  return {
    days: days.map((_, at) => dayResult(days, at, input, protocol)),
    trend: trendOf(days, input.stomaType, protocol),
    notes: notesOn(input),
  };
}

function dayResult(
  days: readonly FluidDay[],
  at: number,
  input: FluidInput,
  protocol: Protocol,
): FluidDayResult {
  const day = days[at]!;
  const { reasons, muted } = reasonsOn(days, at, input, protocol);
  const raisedTo = reasons[0]?.level ?? null;
  const needsOwnLimits = needsOwn(input, day.date, protocol);
  const missing = missingOn(day, input, protocol);
  return {
    date: day.date,
    level: needsOwnLimits ? null : (raisedTo ?? (isOutputKnown(missing, input) ? "none" : null)),
    raisedTo,
    reasons,
    needsOwnLimits,
    missing,
    sodiumLossMmol: sodiumLossMmol(day, input.stomaType, protocol),
    balanceMl: balanceMl(day, input.stomaType, protocol),
    urineByWeightMl: urineByWeightMl(day, protocol),
    notes: [
      ...(needsOwnLimits ? [ownLimitsNeeded(raisedTo)] : []),
      ...(missing.includes("wholeDay") ? [partDay(day, protocol)] : []),
      ...muted,
    ],
  };
}

/** Adult limits were not made for children, in pregnancy, or beside a heart or kidney plan. */
function needsOwn(input: FluidInput, date: PlainDate, protocol: Protocol): boolean {
  const isChild = input.birthDate !== undefined && yearsOld(input.birthDate, date) < protocol.adultYears;
  const key = input.stomaType === "urostomy" ? "urineLowMl" : "outputHighMl";
  return (
    (isChild || input.pregnant === true || input.heartOrKidneyPlan === true) &&
    input.ownLimits?.[key] === undefined
  );
}

function yearsOld(birthDate: PlainDate, date: PlainDate): number {
  const years = Number(date.slice(0, 4)) - Number(birthDate.slice(0, 4));
  return date.slice(5) < birthDate.slice(5) ? years - 1 : years;
}

function missingOn(day: FluidDay, { stomaType }: FluidInput, protocol: Protocol): FluidDayResult["missing"] {
  const missing: FluidDayResult["missing"] = [];
  if (day.hoursCovered < protocol.fullDayHours) missing.push("wholeDay");
  if (stomaType === "urostomy") {
    if (day.stomaMl === undefined && day.urineMl === undefined) missing.push("urineMl");
  } else {
    if (day.stomaMl === undefined) missing.push("stomaMl");
    if (day.urineMl === undefined) missing.push("urineMl");
  }
  if (day.drinksMl === undefined) missing.push("drinksMl");
  if (day.weightKg === undefined) missing.push("weightKg");
  return missing;
}

function isOutputKnown(missing: FluidDayResult["missing"], { stomaType }: FluidInput): boolean {
  return !missing.includes("wholeDay") && !missing.includes(stomaType === "urostomy" ? "urineMl" : "stomaMl");
}

function ownLimitsNeeded(raisedTo: Level | null): Note {
  return raisedTo === null
    ? note(
        "needsOwnLimits",
        "The limits of adults do not hold here: this person needs limits of their own, set by their clinician. Nothing is said about this day.",
      )
    : note(
        "overAdultLimit",
        "The limits of adults do not hold here: this person needs limits of their own. Even a limit for adults was reached: do not wait, tell the nurse.",
        { raisedTo },
      );
}

function partDay({ hoursCovered }: FluidDay, { fullDayHours }: Protocol): Note {
  return note(
    "partDay",
    `The volumes cover ${hoursCovered} hours of the day: enough to raise a concern, not to rule one out.`,
    { hoursCovered, fullDayHours },
  );
}

function notesOn({ birthDate, surgeryOn, days }: FluidInput): Note[] {
  const notes: Note[] = [
    note("feelingUnwell", "How the person feels comes before any volume: ask for the warning signs."),
  ];
  if (birthDate === undefined)
    notes.push(note("ageUnknown", "The age is not known: the limits are those of adults."));
  if (surgeryOn === undefined)
    notes.push(note("surgeryUnknown", "The day of surgery is not known: the stoma counts as new."));
  const gaps = gapsIn(days);
  if (gaps > 0)
    notes.push(
      note("daysMissing", `${gaps} ${gaps === 1 ? "day has" : "days have"} no entry: missing, not zero.`, {
        gaps,
      }),
    );
  return notes;
}

function gapsIn(days: readonly FluidDay[]): number {
  const dates = days.map(({ date }) => date).sort();
  return dates.length < 2 ? 0 : calendarDaysBetween(dates[0]!, dates.at(-1)!) + 1 - dates.length;
}
