import { addDays, calendarDaysBetween, type PlainDate } from "../calendar.ts";
import { type Level, levels, type Note } from "../note.ts";
import type { Protocol, ProtocolKey } from "../protocol/index.ts";

/** Why somebody is to be seen or called, with the figure and the protocol value behind it. */
export interface Reason extends Note {
  level: Exclude<Level, "none">;
  /** What to do, verb first. */
  act: string;
  protocol: { key: ProtocolKey; value: number }[];
  /** Days that this has already waited past its limit; orders reasons of one level. */
  waitedDays: number;
}

/** What the record knows of one stoma, as facts; verdicts are made here. */
export interface StomaFacts {
  /** The day the healing clock starts: surgery, or the first entry where surgery is unknown. */
  clockStartOn: PlainDate;
  lastMeasuredOn: PlainDate | null;
  /** Gap between the opening in use and the last outline, signed mm, widest and narrowest, and where. */
  gap: { widestMm: number; narrowestMm: number; widestAtHour: number } | null;
  /** The day the opening in use is expected to stop fitting. */
  fitsUntilOn: PlainDate | null;
  /** Wears that ended recently, oldest first. */
  wears: RecentWear[];
}

export interface RecentWear {
  endedOn: PlainDate;
  days: number;
  planned: boolean;
  /** What counts as short for the system worn. */
  shortBelowDays: number;
}

/** Every reason that one stoma gives, most urgent first. */
export function reasonsFor(facts: StomaFacts, protocol: Protocol, today: PlainDate): Reason[] {
  return [
    ...openingReasons(facts, protocol, today),
    ...wearReasons(facts, protocol, today),
    ...measuringReasons(facts, protocol, today),
  ].sort(byUrgency);
}

/** Level first; within a level, what has waited longest past its limit. */
export function byUrgency(
  a: Pick<Reason, "level" | "waitedDays">,
  b: Pick<Reason, "level" | "waitedDays">,
): number {
  return levels.indexOf(a.level) - levels.indexOf(b.level) || b.waitedDays - a.waitedDays;
}

/** Day of the next measurement by the protocol's rhythm. */
export function measureDueOn(
  { clockStartOn, lastMeasuredOn }: Pick<StomaFacts, "clockStartOn" | "lastMeasuredOn">,
  protocol: Protocol,
): { dueOn: PlainDate; everyDays: number; key: ProtocolKey } {
  const from = lastMeasuredOn ?? clockStartOn;
  const isNew = calendarDaysBetween(clockStartOn, from) <= protocol.newStomaDays;
  const key = isNew ? "measureEveryDaysNew" : "measureEveryDaysSettled";
  return { dueOn: addDays(from, protocol[key]), everyDays: protocol[key], key };
}

function measuringReasons(facts: StomaFacts, protocol: Protocol, today: PlainDate): Reason[] {
  const { dueOn, everyDays, key } = measureDueOn(facts, protocol);
  const overdueDays = calendarDaysBetween(dueOn, today);
  if (overdueDays < -protocol.remindAheadDays) return [];
  const since = facts.lastMeasuredOn
    ? `${days(calendarDaysBetween(facts.lastMeasuredOn, today))} since the last reading`
    : "not measured yet";
  const when =
    overdueDays > 0
      ? `was due ${days(overdueDays)} ago`
      : overdueDays === 0
        ? "is due today"
        : `is due in ${days(-overdueDays)}`;
  return [
    {
      code: "measureDue",
      level: "nextContact",
      params: { dueOn, overdueDays, lastMeasuredOn: facts.lastMeasuredOn },
      text: `Measuring ${when}: ${since}.`,
      act: overdueDays >= 0 ? "Measure again." : "Plan it with the next change.",
      protocol: [{ key, value: everyDays }],
      waitedDays: overdueDays,
    },
  ];
}

function openingReasons({ gap, fitsUntilOn }: StomaFacts, protocol: Protocol, today: PlainDate): Reason[] {
  const limit: Reason["protocol"] = [{ key: "maxGapMm", value: protocol.maxGapMm }];
  const passedDays = fitsUntilOn ? calendarDaysBetween(fitsUntilOn, today) : -1;
  if (gap && gap.narrowestMm < 0) {
    return [
      {
        code: "openingTooSmall",
        level: "sameDay",
        params: { narrowestMm: gap.narrowestMm },
        text: `The opening in use lies up to ${one(-gap.narrowestMm)} mm inside the stoma: it may cut or squeeze it.`,
        act: "Cut a larger opening.",
        protocol: limit,
        waitedDays: Math.max(0, passedDays),
      },
    ];
  }
  if (gap && gap.widestMm > protocol.maxGapMm) {
    return [
      {
        code: "openingTooLarge",
        level: "sameDay",
        params: { widestMm: gap.widestMm, hour: gap.widestAtHour, fitsUntilOn },
        text: `The opening in use leaves up to ${one(gap.widestMm)} mm of skin bare, widest at ${gap.widestAtHour} o’clock.`,
        act: "Send a new cutting sheet.",
        protocol: limit,
        waitedDays: Math.max(0, passedDays),
      },
    ];
  }
  if (passedDays < 0) return [];
  return [
    {
      code: "openingOutgrown",
      level: "sameDay",
      params: { fitsUntilOn, passedDays },
      text: `By the healing curve the opening in use stopped fitting ${passedDays === 0 ? "today" : `${days(passedDays)} ago`}.`,
      act: "Measure again and send a new cutting sheet.",
      protocol: limit,
      waitedDays: passedDays,
    },
  ];
}

function wearReasons({ wears }: StomaFacts, protocol: Protocol, today: PlainDate): Reason[] {
  const within = (windowDays: number) =>
    wears.filter(({ endedOn }) => calendarDaysBetween(endedOn, today) < windowDays);
  const short = within(protocol.shortWearWindowDays).filter(
    (wear) => wear.days < wear.shortBelowDays && !wear.planned,
  );
  const unplanned = within(protocol.unplannedWindowDays).filter(({ planned }) => !planned);
  const reasons: Reason[] = [];
  if (unplanned.length >= protocol.unplannedCount) {
    reasons.push({
      code: "unplannedChanges",
      level: "nextContact",
      params: { count: unplanned.length, windowDays: protocol.unplannedWindowDays },
      text: `${unplanned.length} unplanned changes in ${days(protocol.unplannedWindowDays)}.`,
      act: "Ask to see the used barrier; review the fit.",
      protocol: [
        { key: "unplannedCount", value: protocol.unplannedCount },
        { key: "unplannedWindowDays", value: protocol.unplannedWindowDays },
      ],
      waitedDays: unplanned.length - protocol.unplannedCount,
    });
  }
  if (short.length >= protocol.shortWearCount) {
    const shown = short.slice(-3).map((wear) => one(wear.days));
    reasons.push({
      code: "shortWear",
      level: "nextContact",
      params: {
        count: short.length,
        lastDays: short.at(-1)?.days ?? null,
        windowDays: protocol.shortWearWindowDays,
      },
      text: `${short.length} wears in ${days(protocol.shortWearWindowDays)} were short: ${shown.join(", ")} days.`,
      act: "Ask to see the used barrier; review the fit.",
      protocol: [
        { key: "shortWearCount", value: protocol.shortWearCount },
        shortLimit(short, protocol),
        { key: "shortWearWindowDays", value: protocol.shortWearWindowDays },
      ],
      waitedDays: short.length - protocol.shortWearCount,
    });
  }
  return reasons;
}

/** The limit that made the last wear short: the protocol's hours, or its share of a shorter plan. */
function shortLimit(short: readonly RecentWear[], protocol: Protocol): Reason["protocol"][number] {
  const key =
    (short.at(-1)?.shortBelowDays ?? 0) < protocol.shortWearHours / 24
      ? "shortWearShareOfPlan"
      : "shortWearHours";
  return { key, value: protocol[key] };
}

function days(count: number): string {
  return count === 1 ? "1 day" : `${count} days`;
}

function one(value: number): string {
  return value.toFixed(1);
}
