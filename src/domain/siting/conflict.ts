import type { RuleKind, SitingPosture } from "./kinds.ts";
import type { Rule } from "./rules.ts";
import { type HighestPoint, highestPoint, type SlackMm } from "./search.ts";
import { type Siting, slacksOf, wholeMap } from "./siting.ts";

/** Landmarks that no place keeps together, and would without any one of them. */
export interface Conflict {
  /** So much each of their limits would have to give for one place to keep these, mm. */
  shortMm: number;
  /** So much every limit of the map would have to give for one place to keep all, mm. */
  allShortMm: number;
  landmarks: { to: string; kind: RuleKind; posture: SitingPosture | null; limitMm: number }[];
}

/**
 * A smallest set of rules that cannot be kept together: no rule can be left out of it. Null where all can be kept.
 * There may be others; each landmark named here is one that must move, or give way, for this one to end.
 */
export function conflictIn(siting: Siting, within: readonly SlackMm[]): Conflict | null {
  const suspects = suspectsIn(siting, within);
  if (!suspects) return null;
  const rules = suspects.reduce((kept, rule) => {
    const others = kept.filter((other) => other !== rule);
    return canKeep(siting, others, within) ? kept : others;
  }, suspects);
  return {
    shortMm: shortOf(siting, rules, within),
    allShortMm: shortOf(siting, siting.rules, within),
    landmarks: rules.map(({ to, kind, posture, limitMm }) => ({ to, kind, posture, limitMm })),
  };
}

function shortOf(siting: Siting, rules: readonly Rule[], within: readonly SlackMm[]): number {
  const best = bestKept(siting, rules, within);
  return best ? Math.max(0, -best.slackMm) : 0;
}

/** Few rules that already cannot be kept together: begins with none and adds the one most broken at the best place. */
function suspectsIn(siting: Siting, within: readonly SlackMm[]): Rule[] | null {
  const suspects: Rule[] = [];
  for (;;) {
    const best = bestKept(siting, suspects, within);
    if (!best || best.slackMm < 0) return suspects;
    const broken = mostBroken(siting.rules, best);
    if (!broken) return null;
    suspects.push(broken);
  }
}

function mostBroken(rules: readonly Rule[], { at: [x, y] }: HighestPoint): Rule | null {
  let [most, leastMm]: [Rule | null, number] = [null, 0];
  for (const rule of rules) {
    const slackMm = rule.distanceMm(x, y) - rule.limitMm;
    if (slackMm < leastMm) [most, leastMm] = [rule, slackMm];
  }
  return most;
}

/** The place at which some rules are kept best, or broken least. */
export function bestKept(
  { box }: Siting,
  rules: readonly Rule[],
  within: readonly SlackMm[],
): HighestPoint | null {
  return highestPoint({ cells: [{ ...wholeMap(box, slacksOf(rules)), within }] });
}

export function canKeep({ box }: Siting, rules: readonly Rule[], within: readonly SlackMm[]): boolean {
  const cells = [{ ...wholeMap(box, slacksOf(rules)), within }];
  return highestPoint({ cells, leastMm: 0, enoughMm: 0 }) !== null;
}
