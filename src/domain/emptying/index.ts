export type { Band } from "./course.ts";
export {
  type Empty,
  type EmptyingForecast,
  type EmptyingInput,
  emptying,
  type Reached,
  type StomaType,
  stomaTypes,
} from "./emptying.ts";
export type { Night } from "./night.ts";
export { type OutingPlan, outingPlan, type PlanInput, type PlannedEmptying } from "./plan.ts";
export type { QuietHours } from "./quietHours.ts";
