import type { Level } from "../note.ts";
import type { ProtocolDefinition } from "../protocol/index.ts";
import type { Condition } from "./condition.ts";

export const stomaTypes = ["ileostomy", "colostomy", "urostomy", "fistula", "other"] as const;
export type StomaType = (typeof stomaTypes)[number];

/** One warning sign: data that the lead may edit. */
export interface WarningSign {
  id: string;
  level: Exclude<Level, "none">;
  /** What is seen or felt. `{key}` stands for the protocol's value with its unit. */
  sign: string;
  /** What to do, verb first. */
  act: string;
  /** Types of stoma that it is about; every type when left out. */
  stomaTypes?: readonly StomaType[];
  when: Condition;
  /** A colostomy that is irrigated rests in between. */
  mutedByIrrigation?: boolean;
  source: string;
  certainty: ProtocolDefinition["certainty"];
}
