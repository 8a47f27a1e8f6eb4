import { type ProtocolDefinition, type ProtocolKey, protocolGroups } from "../../domain/protocol/index.ts";
import type { ClinicStory } from "../../record/story/index.ts";
import type { Bench, Workings } from "../bench.ts";

/** A protocol value with its definition, and who changed it where somebody did. */
export interface ProtocolValue extends ProtocolDefinition {
  key: ProtocolKey;
  value: number;
  changedBy?: string;
  changedAt?: string;
  reason?: string;
}

/** The thresholds in force. A value is changed by an entry of kind protocolSet. */
export function protocolRoutes(bench: Bench, { clinic }: Workings): void {
  bench.get(
    "/api/protocol",
    { schema: { summary: "Every threshold with its source and value" } },
    async (request) => {
      const story = await clinic.story(request);
      const groups = Object.entries(protocolGroups).map(([name, definitions]) => ({
        name,
        values: Object.entries<ProtocolDefinition>(definitions).map(([key, definition]) =>
          valueInForce(key as ProtocolKey, definition, story),
        ),
      }));
      return { groups, version: story.protocolVersion };
    },
  );
}

function valueInForce(
  key: ProtocolKey,
  definition: ProtocolDefinition,
  { protocol, changes }: ClinicStory,
): ProtocolValue {
  const last = changes.filter(({ entry }) => entry.body.key === key).at(-1)?.entry;
  return {
    key,
    ...definition,
    value: protocol[key],
    ...(last ? { changedBy: last.by.name, changedAt: last.recordedAt, reason: last.reason } : {}),
  };
}
