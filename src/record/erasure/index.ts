export { type Erased, Erasure, type ErasureOrder, NobodyToErase } from "./erasure.ts";
export { type ErasureGround, erasureGroundKeys, erasureGrounds } from "./grounds.ts";
export { Ledger, ledgerPlace } from "./ledger.ts";
export { isTypedName } from "./name.ts";
export type { Tombstone } from "./tables.ts";
