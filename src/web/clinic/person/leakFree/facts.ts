import type { Protocol } from "../../../../domain/protocol/index.ts";
import {
  type ChangeInterval,
  type CurveRow,
  changeInterval,
  compareGroups,
  curveQuantile,
  curveRows,
  type EventEnding,
  type GroupComparison,
  type Limited,
  lifetimesOf,
  survivalCurve,
} from "../../../../domain/wear/index.ts";
import { plannedDays, type StomaStory, type Wear, wearInput } from "../../../../record/story/index.ts";

/** What counts as a leak: output past the edge, or found under the barrier. */
const leaks: readonly EventEnding[] = ["leak", "underBarrier"];

/** How long the seal of one system held on this stoma. */
export interface SystemWear {
  name: string;
  /** Wears, the one still on among them. */
  wears: number;
  leaks: number;
  curve: CurveRow[];
  medianDays: Limited;
  longestDays: number;
  plannedDays: number;
  interval: ChangeInterval;
}

/** Names of the systems that were worn, the one worn last first; null stands for "not noted". */
export function systemsWorn({ wears }: StomaStory): string[] {
  const names = [...wears].reverse().map(({ systemName }) => systemName ?? notNoted);
  return [...new Set(names)];
}

export const notNoted = "system not noted";

export function systemWear(
  stoma: StomaStory,
  name: string,
  protocol: Protocol,
  nowMs: number,
): SystemWear | null {
  const own = wearsOf(stoma, name);
  const last = own.at(-1);
  if (!last) return null;
  const input = wearInput(own, nowMs);
  const lifetimes = lifetimesOf(input, leaks);
  const curve = survivalCurve(lifetimes);
  const planned = plannedDays(last, protocol);
  return {
    name,
    wears: lifetimes.n,
    leaks: lifetimes.failures,
    curve: curveRows(curve),
    medianDays: curveQuantile(curve, 0.5),
    longestDays: lifetimes.longestDays,
    plannedDays: planned,
    interval: changeInterval({ wears: input, plannedDays: planned }, protocol),
  };
}

/** Sets two systems side by side; the one named second is what the first is compared with. */
export function compareSystems(
  stoma: StomaStory,
  name: string,
  reference: string,
  nowMs: number,
): GroupComparison {
  const wears = [name, reference].flatMap((group) =>
    wearInput(wearsOf(stoma, group), nowMs).map((wear) => ({ ...wear, group })),
  );
  return compareGroups(wears, { event: leaks, referenceGroup: reference });
}

function wearsOf({ wears }: StomaStory, name: string): Wear[] {
  return wears.filter(({ systemName }) => (systemName ?? notNoted) === name);
}

/** Wears at risk at the start of a day: on, and neither leaked nor taken off before it. */
export function atRiskOn(curve: readonly CurveRow[], day: number): number {
  return Math.round(curve.find(({ days }) => days >= day)?.atRisk ?? 0);
}
