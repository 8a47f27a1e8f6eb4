export { completionDays } from "./lasting.ts";
export type { WeightedLaw } from "./laws.ts";
export type { Lot } from "./lots.ts";
export { countMean, countQuantile, type RenewalOptions, renewalCounts } from "./renewal.ts";
export { type DailyDemand, newsvendor, poissonQuantile, reorderPoint, reorderPointPoisson } from "./stock.ts";
export {
  type Supplies,
  type SuppliesInput,
  type SupplyForecast,
  type SupplyItem,
  supplies,
} from "./supplies.ts";
export type { WearLaw } from "./wearLaw.ts";
