import type { Topic } from "../topic.ts";
import { warningSchema } from "./input.ts";
import { type WarningInput, type WarningResult, warningLevel } from "./warningLevel.ts";

export const warningSignsTopic: Topic<WarningInput, WarningResult> = {
  name: "warning-signs",
  summary: "Answers about how a person is: how soon somebody must act, why, and what was not asked.",
  example: {
    stomaType: "ileostomy",
    daysSinceSurgery: 21,
    answers: {
      hoursSinceOutput: 5,
      cramp: true,
      vomiting: false,
      swollenBelly: false,
      stomaColour: "redOrPink",
    },
  },
  schema: warningSchema,
  run: (input) => warningLevel(input),
};
