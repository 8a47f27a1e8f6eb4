import normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import { type Note, note } from "../note.ts";
import { halfWidth, wearLevel } from "./confidence.ts";
import { survivalCurve } from "./curve.ts";
import { type Lifetimes, lifetimesOf } from "./lifetimes.ts";
import { type LogRank, logRank } from "./logRank.ts";
import { type RestrictedMean, restrictedMean } from "./restrictedMean.ts";
import type { RiskTable } from "./riskTable.ts";
import type { EventEnding, Wear } from "./wear.ts";
import { type GroupEffect, type NoWeibullAft, weibullAft } from "./weibullAft.ts";

/** How many more leak-free days one group has than another, within the first `tauDays`. */
export interface RestrictedMeanDifference {
  group: string;
  reference: string;
  tauDays: number;
  /** Group less reference. */
  days: number;
  se: number | null;
  /** 95 % limits. */
  lower: number | null;
  upper: number | null;
  /** Two-sided test of no difference. */
  p: number | null;
}

/** The accelerated-failure-time fit with its groups named. */
export interface ComparedAft {
  reference: string;
  intercept: number;
  /** The one effect where two groups are compared; null with more, which `effects` lists. */
  beta: number | null;
  sigma: number;
  logLikelihood: number;
  effects: ({ group: string } & GroupEffect)[];
  /** Of intercept, betas and log sigma. */
  covariance: number[][];
}

export interface GroupComparison {
  /** In the order of the figures; the first is what the others are compared with. */
  groups: string[];
  /** How far mean leak-free days are compared; null without two groups. */
  tauDays: number | null;
  logRank: (LogRank & { groups: string[] }) | null;
  /** Only between two groups. */
  restrictedMeanDifference: RestrictedMeanDifference | null;
  weibullAft: ComparedAft | null;
  notes: Note[];
}

export interface CompareOptions {
  event?: readonly EventEnding[];
  /** Left out: the longest wear of the group whose longest wear is shortest. */
  tauDays?: number;
  /** Left out: the first group by name, as R orders a factor. */
  referenceGroup?: string;
}

/**
 * Compares wears by their `group`: two pouching systems, before and after. Wears without one are left out;
 * with fewer than two groups every comparison is null.
 */
export function compareGroups(wears: readonly Wear[], options: CompareOptions = {}): GroupComparison {
  const byGroup = groupedWears(wears, options.referenceGroup);
  const groups = byGroup.map(({ group }) => group);
  if (groups.length < 2) return nothingToCompare(groups);
  const lifetimes = byGroup.map((one) => lifetimesOf(one.wears, options.event));
  const test = logRank(byGroup.map((one, g) => asFound(one.wears, lifetimes[g]!, options.event)));
  const aft = weibullAft(lifetimes);
  // As far as every group has been seen.
  const tauDays = options.tauDays ?? Math.min(...lifetimes.map(({ longestDays }) => longestDays));
  return {
    groups,
    tauDays,
    logRank: test && { groups, ...test },
    restrictedMeanDifference: groups.length === 2 ? meanDifference(groups, lifetimes, tauDays) : null,
    weibullAft: typeof aft === "string" ? null : named(groups, aft),
    notes: [
      ...leftOut(wears),
      ...(test
        ? []
        : [note("noLogRank", "No failure while two groups were at risk: no test of a difference.")]),
      ...(typeof aft === "string" ? [noAft(aft)] : []),
      ...(lifetimes.some(({ between }) => between.byDays.length > 0) ? [comparedAsFound()] : []),
    ],
  };
}

/** The wears of each group, in the order of names with the reference first. */
export function groupedWears(
  wears: readonly Wear[],
  referenceGroup?: string,
): { group: string; wears: Wear[] }[] {
  const byGroup = new Map<string, Wear[]>();
  for (const wear of wears) {
    if (wear.group === undefined) continue;
    const list = byGroup.get(wear.group);
    if (list) list.push(wear);
    else byGroup.set(wear.group, [wear]);
  }
  const rank = (group: string) => (group === referenceGroup ? 0 : 1);
  return [...byGroup]
    .map(([group, list]) => ({ group, wears: list }))
    .sort((a, b) => rank(a.group) - rank(b.group) || (a.group < b.group ? -1 : 1));
}

function nothingToCompare(groups: string[]): GroupComparison {
  return {
    groups,
    tauDays: null,
    logRank: null,
    restrictedMeanDifference: null,
    weibullAft: null,
    notes: [note("noGroups", "Fewer than two groups: nothing to compare.", { groups: groups.length })],
  };
}

/** The log-rank test knows no spans: a failure counts on the day it was found. */
function asFound(
  wears: readonly Wear[],
  { table, between }: Lifetimes,
  event?: readonly EventEnding[],
): RiskTable {
  if (between.byDays.length === 0) return table;
  return lifetimesOf(
    wears.map(({ days, ended }) => ({ days, ended })),
    event,
  ).table;
}

function meanDifference(
  [reference, group]: readonly string[],
  lifetimes: readonly Lifetimes[],
  tauDays: number,
): RestrictedMeanDifference {
  const [first, second] = lifetimes.map((one) => restrictedMean(survivalCurve(one), tauDays)) as [
    RestrictedMean,
    RestrictedMean,
  ];
  const days = second.days - first.days;
  const se = first.se === null || second.se === null ? null : Math.hypot(first.se, second.se);
  const reach = se === null ? null : halfWidth(wearLevel) * se;
  return {
    group: group!,
    reference: reference!,
    tauDays,
    days,
    se,
    lower: reach === null ? null : days - reach,
    upper: reach === null ? null : days + reach,
    p: se ? 2 * normalCdf(-Math.abs(days / se), 0, 1) : null,
  };
}

function named(
  groups: readonly string[],
  aft: Exclude<ReturnType<typeof weibullAft>, NoWeibullAft>,
): ComparedAft {
  return {
    reference: groups[0]!,
    intercept: aft.intercept,
    beta: aft.effects.length === 1 ? aft.effects[0]!.beta : null,
    sigma: aft.sigma,
    logLikelihood: aft.logLikelihood,
    effects: aft.effects.map((effect, j) => ({ group: groups[j + 1]!, ...effect })),
    covariance: aft.covariance,
  };
}

function leftOut(wears: readonly Wear[]): Note[] {
  const without = wears.filter(({ group }) => group === undefined).length;
  return without === 0
    ? []
    : [note("ungroupedLeftOut", `${without} wears without a group are not compared.`, { wears: without })];
}

function noAft(why: NoWeibullAft): Note {
  const because = {
    groupWithoutFailure: "one of the groups has no failure to fit to",
    noSpread: "in every group no wear outlasts a failure",
    noMaximum: "the wears do not determine one",
  }[why];
  return note("noWeibullAft", `No fit of how much longer one group lasts: ${because}.`, { why });
}

function comparedAsFound(): Note {
  return note(
    "comparedAsFound",
    "The log-rank test takes a leak that happened between two looks as happening on the day it was found; the other figures use the span.",
  );
}
