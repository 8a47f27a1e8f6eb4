import type { Condition } from "../condition.ts";
import type { StomaType, WarningSign } from "../row.ts";

const stool: readonly StomaType[] = ["ileostomy", "colostomy", "fistula", "other"];
const volumeSource = "Nightingale, Frontline Gastroenterology 2022;13:140; what to do is a judgement";
const plan = "Drink as the clinician’s plan says: plain water alone makes a high output worse.";

const highOutput: Condition = { number: "outputMl", atLeast: { protocol: "outputHighMl" } };

/** High output and drying out. Symptoms come before volumes. */
export const outputSigns: readonly WarningSign[] = [
  {
    id: "faintedOrConfused",
    level: "now",
    sign: "The person fainted, nearly fainted, is confused or hard to wake.",
    act: "Call the emergency service now.",
    when: { any: [{ yes: "fainted" }, { yes: "confused" }] },
    source: "Of any cause; a volume that nobody measured must not hide it",
    certainty: "judgement",
  },
  {
    id: "highOutputUnwell",
    level: "now",
    sign: "Output of {outputHighMl} or more, with no urine or a racing heart.",
    act: `Call the emergency service now. ${plan}`,
    stomaTypes: stool,
    when: { all: [highOutput, { any: [{ yes: "noUrine" }, { yes: "fastHeart" }] }] },
    source: volumeSource,
    certainty: "judgement",
  },
  {
    id: "outputUrgent",
    level: "now",
    sign: "Output of more than {outputUrgentMl}.",
    act: `Call the surgeon on call or the emergency service now. ${plan}`,
    stomaTypes: stool,
    when: { number: "outputMl", moreThan: { protocol: "outputUrgentMl" } },
    source: "BSG short bowel guideline, Gut 2006;55 suppl 4, table 3; what to do is a judgement",
    certainty: "read in the source",
  },
  {
    id: "outputVeryHigh",
    level: "sameDay",
    sign: "Output of {outputVeryHighMl} or more.",
    act: `Call the nurse or surgeon today. ${plan}`,
    stomaTypes: stool,
    when: { number: "outputMl", atLeast: { protocol: "outputVeryHighMl" } },
    source: volumeSource,
    certainty: "read in the source",
  },
  {
    id: "highOutputDrying",
    level: "sameDay",
    sign: "Output of {outputHighMl} or more, with thirst, dizziness, little urine or lost weight.",
    act: `Call the nurse or surgeon today. ${plan}`,
    stomaTypes: stool,
    when: {
      all: [
        highOutput,
        {
          any: [
            { yes: "thirst" },
            { yes: "dizzyOnStanding" },
            { yes: "darkScantUrine" },
            { number: "urineMl", lessThan: { protocol: "urineLowMl" } },
            { number: "weightLossPercent", atLeast: { protocol: "weightLossPercent" } },
          ],
        },
      ],
    },
    source: volumeSource,
    certainty: "read in the source",
  },
  {
    id: "manyHalfFullEmpties",
    level: "sameDay",
    sign: "A half-full pouch emptied more than {manyHalfFullEmpties}.",
    act: `Call the nurse today, and measure what comes. ${plan}`,
    stomaTypes: stool,
    when: { number: "halfFullEmpties", moreThan: { protocol: "manyHalfFullEmpties" } },
    source: "North Bristol NHS Trust leaflet, High stoma output",
    certainty: "read in the source",
  },
  {
    id: "wateryOutput",
    level: "sameDay",
    sign: "Very much watery output for more than {wateryOutputHours}.",
    act: `Call the nurse or surgeon today. ${plan}`,
    stomaTypes: stool,
    when: { number: "wateryHours", moreThan: { protocol: "wateryOutputHours" } },
    source: "Patient association: 5 to 6 hours",
    certainty: "read in the source",
  },
  {
    id: "dryingOut",
    level: "sameDay",
    sign: "Dizziness on standing with thirst, a dry mouth or dark scant urine, or a racing heart.",
    act: "Call the nurse or surgeon today. Drink as the clinician’s plan says.",
    when: {
      any: [
        { all: [{ yes: "dizzyOnStanding" }, { any: [{ yes: "thirst" }, { yes: "darkScantUrine" }] }] },
        { yes: "fastHeart" },
      ],
    },
    source: "Hospital and society texts on drying out; symptoms override volume (Leicester NHS guideline)",
    certainty: "read in the source",
  },
  {
    id: "noUrineToday",
    level: "sameDay",
    sign: "No urine has come today.",
    act: "Call the nurse or surgeon at once.",
    stomaTypes: stool,
    when: { yes: "noUrine" },
    source: "No source found for urine alone",
    certainty: "judgement",
  },
  {
    id: "muchWeightLost",
    level: "sameDay",
    sign: "{weightLossMuchPercent} of the weight lost within two weeks, or more.",
    act: "Call the nurse or surgeon today.",
    when: { number: "weightLossPercent", atLeast: { protocol: "weightLossMuchPercent" } },
    source: "Over 5 % is significant; reached is the cautious reading",
    certainty: "from memory",
  },
];
