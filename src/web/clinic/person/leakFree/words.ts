import type { GroupComparison } from "../../../../domain/wear/index.ts";
import { counted, days, range } from "../../../shared/words/index.ts";
import type { SystemWear } from "./facts.ts";

/** A sentence and, under it, what it rests on. */
export interface Said {
  code: string;
  text: string;
  notes?: string[];
}

/** When to change, in a sentence, with what it rests on; or why there is no such day. */
export function intervalSaid({ interval }: SystemWear): Said {
  const basis = interval.basis.map(({ text }) => text);
  const [why] = interval.notes;
  if (interval.estimate === null) return { code: "noInterval", text: why?.text ?? "", notes: basis };
  const chance = Math.round(interval.riskTarget * 100);
  const limits =
    interval.lower === null || interval.upper === null
      ? ""
      : `80 % range: ${spread(interval.lower, interval.upper)}. `;
  return {
    code: "interval",
    text: `Plan the change by ${days(interval.estimate, 1)}: up to then no more than ${chance} % of seals are expected to fail.`,
    notes: [`${limits}Protocol: ${chance} % accepted.`, ...basis, ...(why ? [why.text] : [])],
  };
}

/** The plan of today beside it. */
export function planSaid({ plannedDays, interval }: SystemWear): Said {
  const later = interval.estimate !== null && plannedDays > interval.estimate + 0.05;
  return {
    code: "plan",
    text: `Changes are now planned every ${days(plannedDays)}${later ? ", which is later" : ""}.`,
  };
}

export function medianSaid({ medianDays, longestDays, wears, leaks }: SystemWear): Said {
  const from = `${counted(wears, "wear", "wears")}, ${counted(leaks, "leak", "leaks")}.`;
  if (leaks === 0) {
    return {
      code: "noLeaks",
      text: `No leak in ${counted(wears, "wear", "wears")}, the longest ${days(longestDays, 1)}.`,
    };
  }
  if (medianDays.estimate === null) {
    return {
      code: "medianNotReached",
      text: `More than half of the barriers were still leak-free at ${days(longestDays, 1)}, the longest wear.`,
      notes: [from],
    };
  }
  const { lower, upper } = medianDays;
  const limits =
    lower === null
      ? ""
      : upper === null
        ? `95 %: ${days(lower, 1)} or more; `
        : `95 %: ${range(lower.toFixed(1), days(upper, 1))}; `;
  return {
    code: "median",
    text: `Half of the barriers would have leaked by ${days(medianDays.estimate, 1)}.`,
    notes: [`${limits}${from}`],
  };
}

/** What two systems differ in, with its interval, and what the test says in words. */
export function comparisonSaid(
  { restrictedMeanDifference: difference, logRank, notes }: GroupComparison,
  [one, other]: readonly [SystemWear, SystemWear],
): Said[] {
  const said: Said[] = [];
  if (difference) {
    const more = difference.days >= 0 ? "more" : "fewer";
    const { lower, upper } = difference;
    said.push({
      code: "difference",
      text: `Within ${days(difference.tauDays, 1)} the system in use gives ${days(Math.abs(difference.days), 1)} ${more} leak-free than the one beside it.`,
      notes: [limitsWords(lower, upper)],
    });
  }
  if (logRank) {
    said.push({
      code: "logRank",
      text: `If the two held alike, a difference as large would come up ${inHundred(logRank.p)} (log-rank test).`,
      notes: [
        `From ${one.wears} and ${other.wears} wears with ${one.leaks} and ${other.leaks} leaks.`,
        "The two were worn at different times: the stoma, the skin and the person’s practice changed too.",
      ],
    });
  } else {
    const why = notes.find(({ code }) => code === "noLogRank");
    if (why) said.push({ code: why.code, text: why.text });
  }
  return said;
}

/** "3.8 to 4.1 days", once where both ends read the same. */
function spread(lower: number, upper: number): string {
  const [from, to] = [lower.toFixed(1), upper.toFixed(1)];
  return from === to ? days(upper, 1) : range(from, days(upper, 1));
}

function limitsWords(lower: number | null, upper: number | null): string {
  if (lower === null || upper === null) return "Its uncertainty cannot be given from these wears.";
  const apart = spansNothing(lower, upper) ? " The wears do not tell the two apart yet." : "";
  return `95 %: ${signed(lower)} to ${signed(upper)} days.${apart}`;
}

function spansNothing(lower: number, upper: number): boolean {
  return lower <= 0 && upper >= 0;
}

function signed(value: number): string {
  return `${value < 0 ? "−" : "+"}${Math.abs(value).toFixed(1)}`;
}

/** A probability in the words of the trade: "3 times in 100", "less than once in 1,000". */
export function inHundred(p: number): string {
  if (p < 0.001) return "less than once in 1,000 times";
  if (p < 0.01) return `${Math.max(1, Math.round(p * 1000))} in 1,000 times`;
  return `${Math.round(p * 100)} in 100 times`;
}
