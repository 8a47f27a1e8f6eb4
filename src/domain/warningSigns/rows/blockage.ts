import type { Condition } from "../condition.ts";
import type { WarningSign } from "../row.ts";

const cancerSociety = "American Cancer Society ileostomy guide";
const blockageCard = "Patient-association blockage card, quoted on a forum";
const emergency = "Call the emergency service now. Take pouches and supplies along. Take no laxative.";

const vomitingOrSwollen: Condition = { any: [{ yes: "vomiting" }, { yes: "swollenBelly" }] };
const crampOrPain: Condition = { any: [{ yes: "cramp" }, { yes: "bellyPain" }] };

/** No output, and blockage. Never a laxative, never a thickener. */
export const blockageSigns: readonly WarningSign[] = [
  {
    id: "ileostomyNoOutputVomiting",
    level: "now",
    sign: "No output for {noOutputVomitingHours}, with vomiting or a swollen belly.",
    act: emergency,
    stomaTypes: ["ileostomy", "fistula", "other"],
    when: {
      all: [
        { number: "hoursSinceOutput", atLeast: { protocol: "noOutputVomitingHours" } },
        vomitingOrSwollen,
      ],
    },
    source: blockageCard,
    certainty: "second hand",
  },
  {
    id: "vomitingAndSwollen",
    level: "now",
    sign: "Vomiting and a swollen belly.",
    act: emergency,
    stomaTypes: ["ileostomy", "colostomy", "fistula", "other"],
    when: { all: [{ yes: "vomiting" }, { yes: "swollenBelly" }] },
    source: "The cautious reading of the blockage card, where nobody knows when output last came",
    certainty: "judgement",
  },
  {
    id: "painNobodyReached",
    level: "now",
    sign: "Pain for more than {noOutputPainHours} without output, and nobody can be reached.",
    act: "Go to the emergency department now. Take pouches and supplies along.",
    stomaTypes: ["ileostomy", "colostomy", "fistula", "other"],
    when: {
      all: [
        { yes: "nobodyReached" },
        { number: "painHours", moreThan: { protocol: "noOutputPainHours" } },
        { number: "hoursSinceOutput", moreThan: { protocol: "noOutputPainHours" } },
      ],
    },
    source: `${cancerSociety}; its colostomy advice at second hand`,
    certainty: "read in the source",
  },
  {
    id: "colostomyNoOutputVomiting",
    level: "now",
    sign: "No output for {noOutputVomitingColostomyHours}, with vomiting or a swollen belly.",
    act: emergency,
    stomaTypes: ["colostomy"],
    when: {
      all: [
        { number: "hoursSinceOutput", atLeast: { protocol: "noOutputVomitingColostomyHours" } },
        vomitingOrSwollen,
      ],
    },
    source: "No guideline found",
    certainty: "judgement",
  },
  {
    id: "partialBlockageVomiting",
    level: "now",
    sign: "Thin, foul output with cramps or swelling, and vomiting.",
    act: emergency,
    stomaTypes: ["ileostomy", "colostomy", "fistula", "other"],
    when: {
      all: [
        { yes: "thinFoulOutput" },
        { yes: "vomiting" },
        {
          any: [
            { yes: "cramp" },
            { yes: "swollenStoma" },
            { yes: "swollenBelly" },
            { yes: "darkScantUrine" },
          ],
        },
      ],
    },
    source: blockageCard,
    certainty: "second hand",
  },
  {
    id: "ileostomyNoOutputCramp",
    level: "sameDay",
    sign: "No output for {noOutputCrampHours}, with cramps, pain or sickness.",
    act: "Call the nurse or surgeon at once. Take no laxative.",
    stomaTypes: ["ileostomy", "fistula", "other"],
    when: {
      all: [
        { number: "hoursSinceOutput", atLeast: { protocol: "noOutputCrampHours" } },
        { any: [{ yes: "cramp" }, { yes: "bellyPain" }, { yes: "nausea" }] },
      ],
    },
    source: `${cancerSociety}: 4 to 6 hours; a clinical algorithm collection: over 6 hours`,
    certainty: "read in the source",
  },
  {
    id: "ileostomyNoOutput",
    level: "sameDay",
    sign: "No output for {noOutputWellIleostomyHours}, even when feeling well.",
    act: "Call the nurse today; with cramps, vomiting or swelling at once.",
    stomaTypes: ["ileostomy"],
    when: { number: "hoursSinceOutput", atLeast: { protocol: "noOutputWellIleostomyHours" } },
    source: "No guideline found",
    certainty: "common practice, no source",
  },
  {
    id: "colostomyPainNoOutput",
    level: "sameDay",
    sign: "Pain and cramps, and no output for more than {noOutputPainHours}.",
    act: "Call the nurse or surgeon at once. Take no laxative.",
    stomaTypes: ["colostomy"],
    when: {
      all: [crampOrPain, { number: "hoursSinceOutput", moreThan: { protocol: "noOutputPainHours" } }],
    },
    source: "Cancer society colostomy advice",
    certainty: "second hand",
  },
  {
    id: "colostomyNoOutputLong",
    level: "sameDay",
    sign: "No output for {noOutputLongColostomyHours}, even when feeling well.",
    act: "Call the nurse today; with pain, vomiting or swelling at once.",
    stomaTypes: ["colostomy"],
    when: { number: "hoursSinceOutput", atLeast: { protocol: "noOutputLongColostomyHours" } },
    mutedByIrrigation: true,
    source: "No guideline found",
    certainty: "common practice, no source",
  },
  {
    id: "colostomyNoOutput",
    level: "nextContact",
    sign: "No output for {noOutputColostomyHours}, even when feeling well.",
    act: "Tell the nurse at the next contact; with pain, vomiting or swelling call at once.",
    stomaTypes: ["colostomy"],
    when: { number: "hoursSinceOutput", atLeast: { protocol: "noOutputColostomyHours" } },
    mutedByIrrigation: true,
    source: "No guideline found",
    certainty: "common practice, no source",
  },
  {
    id: "partialBlockage",
    level: "sameDay",
    sign: "Thin, clear, foul output with cramps, a swollen stoma or belly, or dark scant urine.",
    act: "Call the nurse or surgeon today: this may be a part blockage and no loose stool. Take nothing that thickens or binds.",
    stomaTypes: ["ileostomy", "colostomy", "fistula", "other"],
    when: {
      all: [
        { yes: "thinFoulOutput" },
        {
          any: [
            { yes: "cramp" },
            { yes: "swollenStoma" },
            { yes: "swollenBelly" },
            { yes: "darkScantUrine" },
          ],
        },
      ],
    },
    source: blockageCard,
    certainty: "second hand",
  },
  {
    id: "vomiting",
    level: "sameDay",
    sign: "Vomiting.",
    act: "Call the nurse or surgeon today; with no output or a swollen belly call now.",
    when: { yes: "vomiting" },
    source: `${blockageCard}: no output for several hours or vomiting: call`,
    certainty: "second hand",
  },
];
