import type { Condition } from "../condition.ts";
import type { WarningSign } from "../row.ts";

const depression = "Depression after stoma surgery, BMC Psychiatry 2023;23:352";

const low: Condition = {
  any: [
    { number: "lowMoodDays", atLeast: { protocol: "lowMoodDays" } },
    { yes: "avoidsStoma" },
    { yes: "staysIn" },
  ],
};

export const personSigns: readonly WarningSign[] = [
  {
    id: "selfHarm",
    level: "now",
    sign: "Thoughts of ending it, or of doing oneself harm.",
    act: "Stay with the person, and call the crisis line or the emergency service now.",
    when: { yes: "selfHarm" },
    source: "Universal",
    certainty: "from memory",
  },
  {
    id: "chestOrLeg",
    level: "now",
    sign: "Pain in the chest, one swollen leg, or shortness of breath.",
    act: "Call the emergency service now.",
    when: { any: [{ yes: "chestPain" }, { yes: "oneLegSwollen" }, { yes: "shortOfBreath" }] },
    source: "Universal after surgery",
    certainty: "from memory",
  },
  {
    id: "lowMoodWorse",
    level: "sameDay",
    sign: "Low mood, avoiding the stoma or staying in, and getting worse.",
    act: "Call the nurse or family doctor today.",
    when: { all: [low, { yes: "moodGettingWorse" }] },
    source: depression,
    certainty: "judgement",
  },
  {
    id: "lowMood",
    level: "nextContact",
    sign: "Low mood for {lowMoodDays}, avoiding to look at or care for the stoma, or staying in.",
    act: "Tell the nurse at the next contact: it is common, and there is help.",
    when: low,
    source: depression,
    certainty: "read in the source",
  },
];
