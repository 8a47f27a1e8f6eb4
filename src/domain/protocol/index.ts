import type { ProtocolDefinition } from "./definition.ts";
import { emptyingProtocol } from "./emptying.ts";
import { fitProtocol } from "./fit.ts";
import { fluidProtocol } from "./fluid.ts";
import { healingProtocol } from "./healing.ts";
import { measuringProtocol } from "./measuring.ts";
import { photoProtocol } from "./photo.ts";
import { sitingProtocol } from "./siting.ts";
import { warningSignsProtocol } from "./warningSigns.ts";
import { wearProtocol } from "./wear.ts";

export type { ProtocolDefinition } from "./definition.ts";

/** Groups as the protocol page shows them. */
export const protocolGroups = {
  measuring: measuringProtocol,
  fit: fitProtocol,
  healing: healingProtocol,
  wear: wearProtocol,
  emptying: emptyingProtocol,
  fluid: fluidProtocol,
  warningSigns: warningSignsProtocol,
  siting: sitingProtocol,
  photo: photoProtocol,
} as const;

/** Every threshold by key. */
export const protocolDefinitions = {
  ...measuringProtocol,
  ...fitProtocol,
  ...healingProtocol,
  ...wearProtocol,
  ...emptyingProtocol,
  ...fluidProtocol,
  ...warningSignsProtocol,
  ...sitingProtocol,
  ...photoProtocol,
};

export type ProtocolKey = keyof typeof protocolDefinitions;

/** The values in force. */
export type Protocol = Readonly<Record<ProtocolKey, number>>;

export const protocolKeys = Object.keys(protocolDefinitions) as ProtocolKey[];

/** The definition of one threshold. */
export function protocolDefinition(key: ProtocolKey): ProtocolDefinition {
  return protocolDefinitions[key];
}

/** The values in force: the defaults with a clinic's changes laid over them. */
export function protocolWith(changes: Partial<Record<ProtocolKey, number>> = {}): Protocol {
  const defaults = Object.fromEntries(protocolKeys.map((key) => [key, protocolDefinitions[key].default]));
  return { ...(defaults as Record<ProtocolKey, number>), ...changes };
}

export const defaultProtocol: Protocol = protocolWith();
