import type { Reason } from "../../../domain/attention/index.ts";
import { protocolDefinition } from "../../../domain/protocol/index.ts";
import { shownValue } from "../protocol/shownValue.ts";

/** The line under a reason: the values that fired, as they are quoted. "Protocol: 2 changes in 7 days" */
export function protocolWords(values: Reason["protocol"]): string {
  return `Protocol: ${values.map(cited).join(" ")}`;
}

function cited({ key, value }: Reason["protocol"][number]): string {
  const { label, unit, cited: phrase } = protocolDefinition(key);
  const shown = shownValue(value, unit);
  if (phrase) return phrase.replace("{value}", shown);
  return `${shown} (${label.charAt(0).toLowerCase()}${label.slice(1)})`;
}
