/**
 * One threshold of the clinic's protocol: a default with its source, which the lead may change.
 * `certainty` says how sure the default is: read in its source, told at second hand, from memory,
 * a habit of the trade, or our own judgement.
 */
export interface ProtocolDefinition {
  label: string;
  unit: string;
  /** The value as it is quoted beside a reason: `{value} each side`. Without it, the value and its label. */
  cited?: string;
  default: number;
  /** Inclusive limits of what the lead may set. */
  min: number;
  max: number;
  source: string;
  certainty:
    | "read in the source"
    | "second hand"
    | "from memory"
    | "common practice, no source"
    | "judgement";
}

/** Keeps the literal keys while checking each definition. */
export function defineProtocol<K extends string>(
  values: Record<K, ProtocolDefinition>,
): Record<K, ProtocolDefinition> {
  return values;
}
