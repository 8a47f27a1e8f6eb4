import { type Level, levels, type Note } from "../note.ts";
import { type Protocol, type ProtocolKey, protocolDefinition } from "../protocol/index.ts";
import type { FluidInput, OwnLimits } from "./fluid.ts";

/** Why a day asks for something: the figure, the limit it reached, and where the limit comes from. */
export interface FluidReason extends Note {
  /** The same word as `code`. */
  rule: string;
  level: Exclude<Level, "none">;
  value: number;
  limit: number;
  unit: string;
  /** Source of the limit, or that the person's clinician or the clinic set it. */
  source: string;
}

/** Builds reasons against the limits in force. */
export function reasonBuilder({ ownLimits, protocol: changes }: FluidInput, protocol: Protocol) {
  return (
    rule: string,
    level: FluidReason["level"],
    value: number,
    key: ProtocolKey,
    text: string,
  ): FluidReason => {
    const limit = protocol[key];
    const { unit } = protocolDefinition(key);
    const source = sourceOf(key, ownLimits, changes);
    return { code: rule, params: { value, limit, key }, text, rule, level, value, limit, unit, source };
  };
}

function sourceOf(key: ProtocolKey, ownLimits?: OwnLimits, changes?: FluidInput["protocol"]): string {
  if (ownLimits && Object.hasOwn(ownLimits, key)) return "The person’s own limit, set by their clinician";
  const { source, certainty, default: usual } = protocolDefinition(key);
  const changed = changes?.[key];
  if (changed !== undefined && changed !== usual)
    return `Set by the clinic’s protocol (default ${usual}: ${source})`;
  return `${source} (${certainty})`;
}

/** Most urgent first. */
export function byLevel(a: { level: Level }, b: { level: Level }): number {
  return levels.indexOf(a.level) - levels.indexOf(b.level);
}
