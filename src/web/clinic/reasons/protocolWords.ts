import type { Reason } from "../../../domain/attention/index.ts";
import { protocolDefinition } from "../../../domain/protocol/index.ts";
import { shownValue } from "../protocol/shownValue.ts";

/** The line under a reason: each value that fired, with what it is. "Protocol: 3.2 mm (skin bare on …)" */
export function protocolWords(values: Reason["protocol"]): string {
  const each = values.map(({ key, value }) => {
    const { label, unit } = protocolDefinition(key);
    return `${shownValue(value, unit)} (${label.charAt(0).toLowerCase()}${label.slice(1)})`;
  });
  return `Protocol: ${each.join("; ")}`;
}
