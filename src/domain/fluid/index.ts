export {
  type FluidDay,
  type FluidDayResult,
  type FluidInput,
  type FluidResult,
  fluid,
  type OwnLimits,
  ownLimitKeys,
} from "./fluid.ts";
export { type Substance, substances } from "./molarMass.ts";
export type { FluidReason } from "./reason.ts";
export {
  type GramsPerL,
  type Limit,
  type Rehydration,
  type RehydrationInput,
  rehydration,
} from "./rehydration.ts";
export type { FluidTrend } from "./trend.ts";
