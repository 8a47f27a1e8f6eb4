export type { Condition, Limit } from "./condition.ts";
export { type Answers, type Question, type QuestionKey, questionKeys, questionOf } from "./question.ts";
export { type StomaType, stomaTypes, type WarningSign } from "./row.ts";
export { warningSigns } from "./rows/index.ts";
export {
  type Sign,
  type WarningInput,
  type WarningResult,
  warningLevel,
  withLimits,
} from "./warningLevel.ts";
