import type { Protocol } from "../protocol/index.ts";
import type { WearPrior } from "./posterior.ts";
import type { Wear } from "./wear.ts";

/** What a change interval is worked out from. Left out, a setting is the protocol's. */
export interface ChangeIntervalInput {
  /** One person's wears under the pouching system that they use. */
  wears: readonly Wear[];
  /** Chance of a failing seal accepted before the planned change, between 0 and 1. */
  riskTarget?: number;
  /** Below this the answer is "review the fit", never "change more often". */
  floorDays?: number;
  maxDays?: number;
  /** The change as now planned. That of a closed pouch sets its prior and its floor. */
  plannedDays?: number;
  /** `none`: maximum likelihood from the wears alone. */
  prior?: "weak" | "none";
}

/** Everything the input may set, with the protocol's value where it does not. */
export interface ChangeSettings {
  riskTarget: number;
  plannedDays: number;
  floorDays: number;
  maxDays: number;
  /** Null: none is used. */
  prior: WearPrior | null;
}

/** Lays the input over the protocol. */
export function changeSettings(input: ChangeIntervalInput, protocol: Protocol): ChangeSettings {
  const plannedDays = input.plannedDays ?? protocol.plannedIntervalDrainableDays;
  return {
    riskTarget: input.riskTarget ?? protocol.riskTarget,
    plannedDays,
    floorDays: input.floorDays ?? floorFor(plannedDays, protocol),
    maxDays: input.maxDays ?? protocol.maxIntervalDays,
    prior: input.prior === "none" ? null : priorFor(plannedDays, protocol),
  };
}

/** A closed pouch lives hours: its floor is a share of its own plan. */
function floorFor(plannedDays: number, protocol: Protocol): number {
  return isClosed(plannedDays, protocol)
    ? protocol.shortWearShareOfPlan * plannedDays
    : protocol.floorIntervalDays;
}

/** A plan nearer, as a ratio, to that of a closed pouch than to that of a drainable one is a closed pouch's. */
function isClosed(plannedDays: number, protocol: Protocol): boolean {
  return (
    plannedDays / protocol.plannedIntervalClosedDays < protocol.plannedIntervalDrainableDays / plannedDays
  );
}

/** A closed pouch is expected to last as many of its plans as a drainable one does of its own. */
function priorFor(plannedDays: number, protocol: Protocol): WearPrior {
  const scaleDays = isClosed(plannedDays, protocol)
    ? protocol.priorScaleDays * (plannedDays / protocol.plannedIntervalDrainableDays)
    : protocol.priorScaleDays;
  return {
    logScale: { mean: Math.log(scaleDays), sd: protocol.priorScaleLogSd },
    logShape: { mean: Math.log(protocol.priorShape), sd: protocol.priorShapeLogSd },
  };
}
