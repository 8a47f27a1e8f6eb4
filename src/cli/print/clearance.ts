import type { Protocol } from "../../domain/protocol/index.ts";
import type { StomaType } from "../../record/entry/index.ts";

/** The gap each side that the protocol sets: the smaller one wherever output may be liquid, or is not known. */
export function clearanceFor(type: StomaType, protocol: Protocol): number {
  return type === "colostomy" ? protocol.clearanceFormedMm : protocol.clearanceLiquidMm;
}
