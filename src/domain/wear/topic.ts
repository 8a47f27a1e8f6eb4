import { type Note, note } from "../note.ts";
import type { Topic } from "../topic.ts";
import { type ChangeInterval, changeInterval } from "./changeInterval.ts";
import { compareGroups, type GroupComparison, groupedWears } from "./compareGroups.ts";
import { wearLevel } from "./confidence.ts";
import { type WearInput, wearInput } from "./input.ts";
import { lifetimesOf } from "./lifetimes.ts";
import { summariseWears, type WearSummary } from "./summary.ts";
import type { Wear } from "./wear.ts";

/** A set of wears in figures, with its change interval. */
export interface WearReport extends WearSummary {
  changeByDays: Omit<ChangeInterval, "notes">;
}

/** Output of the `wear` topic. The last four keys are there when at least two groups are. */
export interface WearOutput extends WearReport {
  /** Level of every interval but `changeByDays`, which states its own. */
  level: number;
  groups?: ({ group: string } & WearReport)[];
  logRank?: GroupComparison["logRank"];
  restrictedMeanDifference?: GroupComparison["restrictedMeanDifference"];
  weibullAft?: GroupComparison["weibullAft"];
}

export const wearTopic: Topic<WearInput, WearOutput> = {
  name: "wear",
  summary: "wears and how each ended: leak-free curve, Weibull fit, change interval, comparison of groups",
  example: {
    wears: [
      { days: 3.5, ended: "planned" },
      { days: 2.8, ended: "leak" },
      { days: 3.6, ended: "planned" },
      { days: 4.0, ended: "planned" },
      { days: 3.6, ended: "underBarrier", foundAfterDays: 3.1 },
      { days: 3.5, ended: "planned" },
      { days: 3.9, ended: "planned" },
      { days: 1.5, ended: "stillOn" },
    ],
    event: ["leak", "underBarrier"],
  },
  schema: wearInput,
  run(input) {
    const whole = reportOf(input.wears, input);
    const byGroup = groupedWears(input.wears, input.referenceGroup);
    if (byGroup.length < 2) return { level: wearLevel, ...whole };
    const comparison = compareGroups(input.wears, input);
    return {
      level: wearLevel,
      ...whole,
      groups: byGroup.map(({ group, wears }) => ({
        group,
        ...reportOf(wears, { ...input, tauDays: comparison.tauDays ?? undefined }),
      })),
      logRank: comparison.logRank,
      ...(byGroup.length === 2 && { restrictedMeanDifference: comparison.restrictedMeanDifference }),
      weibullAft: comparison.weibullAft,
      notes: [...whole.notes, ...comparison.notes, groupsPooled()],
    };
  },
};

function reportOf(wears: readonly Wear[], input: WearInput): WearReport {
  const summary = summariseWears(lifetimesOf(wears, input.event), input.interval, input.tauDays);
  const { notes, ...changeByDays } = changeInterval({ ...input, wears });
  return { ...summary, changeByDays, notes: [...summary.notes, ...notes] };
}

function groupsPooled(): Note {
  return note(
    "groupsPooled",
    "The figures outside `groups` pool all wears; plan changes by the group now in use.",
  );
}
