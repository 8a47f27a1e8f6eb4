import { z } from "zod";
import type { Topic } from "../topic.ts";
import {
  type Protocol,
  type ProtocolDefinition,
  type ProtocolKey,
  protocolDefinition,
  protocolGroups,
  protocolKeys,
  protocolWith,
} from "./index.ts";

/** A clinic's own values laid over the defaults. */
export interface ProtocolInput {
  changes?: Partial<Record<ProtocolKey, number>>;
}

/** Every threshold with what it means, where its default comes from and what is in force. */
export interface ProtocolOutput {
  groups: { name: string; values: ProtocolValue[] }[];
}

export interface ProtocolValue extends ProtocolDefinition {
  key: ProtocolKey;
  value: number;
  changed: boolean;
}

/** A clinic's own values, each within its limits. */
export const protocolChanges = z.strictObject(
  Object.fromEntries(
    protocolKeys.map((key) => {
      const { min, max } = protocolDefinition(key);
      return [key, z.number().min(min).max(max).optional()];
    }),
  ) as Record<ProtocolKey, z.ZodOptional<z.ZodNumber>>,
);

export const protocolTopic: Topic<ProtocolInput, ProtocolOutput> = {
  name: "protocol",
  summary: "Every threshold of the protocol with its default, limits, source and the value in force.",
  example: { changes: { clearanceLiquidMm: 1.6, measureEveryDaysNew: 5 } },
  schema: z.strictObject({ changes: protocolChanges.optional() }),
  run: (input) => protocolInForce(protocolWith(input.changes)),
};

function protocolInForce(protocol: Protocol): ProtocolOutput {
  const groups = Object.entries(protocolGroups).map(([name, definitions]) => ({
    name,
    values: (Object.keys(definitions) as ProtocolKey[]).map((key) => inForce(key, protocol[key])),
  }));
  return { groups };
}

function inForce(key: ProtocolKey, value: number): ProtocolValue {
  const definition = protocolDefinition(key);
  return { key, value, changed: value !== definition.default, ...definition };
}
