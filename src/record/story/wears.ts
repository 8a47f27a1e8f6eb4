import type { Protocol } from "../../domain/protocol/index.ts";
import type { Ending } from "../../domain/wear/index.ts";
import type { Effective } from "../effective/index.ts";
import { type ChangeReason, type Closure, type PouchingSystem, sortMs } from "../entry/index.ts";

const dayMs = 86_400_000;

/** A change with the system that was put on at it. */
export interface Change {
  entryId: string;
  atMs: number;
  source: Effective<"changed">;
  systemName: string | null;
  system: PouchingSystem | null;
  plannedIntervalDays: number | null;
}

/** One barrier's life, from the change that put it on to the change that took it off. */
export interface Wear {
  /** The change that put it on, and the one that ended it; null while it is still on. */
  startId: string;
  endId: string | null;
  startMs: number;
  endMs: number | null;
  why: ChangeReason | null;
  systemName: string | null;
  closure: Closure | null;
  /** The person's own plan where one was set; otherwise the protocol's, by {@link plannedDays}. */
  plannedIntervalDays: number | null;
  /** The last time the seal was seen sound before a leak found later, ms. */
  lastSoundMs: number | null;
}

/** How a wear ended, in the words of the computation. */
export const endings: Record<ChangeReason, Ending> = {
  planned: "planned",
  leakPastEdge: "leak",
  leakUnderBarrier: "underBarrier",
  itchOrLifting: "sealTrouble",
  other: "other",
};

export function changesOf(changed: Effective<"changed">[], systems: Effective<"fitted">[]): Change[] {
  return changed.map((source) => {
    const { body, at, id } = source.entry;
    const atMs = sortMs(at);
    const inUse = systems.filter(({ entry }) => sortMs(entry.at) <= atMs);
    const named = body.systemName;
    const fitted = named
      ? inUse.filter(({ entry }) => entry.body.system.name === named).at(-1)
      : inUse.at(-1);
    return {
      entryId: id,
      atMs,
      source,
      systemName: named ?? fitted?.entry.body.system.name ?? null,
      system: fitted?.entry.body.system ?? null,
      plannedIntervalDays: fitted?.entry.body.plannedIntervalDays ?? null,
    };
  });
}

/** A closed one-piece pouch is a barrier too: every pouch change of it is a barrier change. */
function endsWear(change: Change): boolean {
  const { what } = change.source.entry.body;
  if (what === "barrier") return true;
  return what === "pouchOnly" && change.system?.pieces === "one";
}

export function wearsOf(changes: Change[]): Wear[] {
  const barriers = changes.filter(endsWear);
  return barriers.map((start, index) => {
    const end = barriers[index + 1];
    const { lastSoundAt } = end?.source.entry.body ?? {};
    return {
      startId: start.entryId,
      endId: end?.entryId ?? null,
      startMs: start.atMs,
      endMs: end?.atMs ?? null,
      why: end?.source.entry.body.why ?? null,
      systemName: start.systemName,
      closure: start.system?.closure ?? null,
      plannedIntervalDays: start.plannedIntervalDays,
      lastSoundMs: lastSoundAt ? Date.parse(lastSoundAt) : null,
    };
  });
}

/** The planned interval that a wear is held against. */
export function plannedDays(wear: Pick<Wear, "closure" | "plannedIntervalDays">, protocol: Protocol): number {
  if (wear.plannedIntervalDays !== null) return wear.plannedIntervalDays;
  return wear.closure === "closed"
    ? protocol.plannedIntervalClosedDays
    : protocol.plannedIntervalDrainableDays;
}

/** The wear below which it is short: the protocol's hours, or its share of a shorter plan. */
export function shortBelowDays(
  wear: Pick<Wear, "closure" | "plannedIntervalDays">,
  protocol: Protocol,
): number {
  return Math.min(protocol.shortWearHours / 24, protocol.shortWearShareOfPlan * plannedDays(wear, protocol));
}

/** Wear in days of 24 hours: elapsed time, so that a clock change does not lengthen it. */
export function wornDays(wear: Wear, nowMs: number): number {
  return ((wear.endMs ?? nowMs) - wear.startMs) / dayMs;
}

/** Wears as the computation takes them, grouped by system. */
export function wearInput(wears: readonly Wear[], nowMs: number) {
  return wears
    .filter((wear) => wear.startMs <= nowMs)
    .map((wear) => ({
      days: wornDays(wear, nowMs),
      ended: wear.why ? endings[wear.why] : ("stillOn" as const),
      group: wear.systemName ?? undefined,
      foundAfterDays:
        wear.lastSoundMs !== null && wear.lastSoundMs > wear.startMs
          ? (wear.lastSoundMs - wear.startMs) / dayMs
          : undefined,
    }));
}
