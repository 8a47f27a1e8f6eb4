import type { WarningSign } from "../row.ts";

const reviews = "Surgery reviews 2017 and 2023 (World J Emerg Surg 18:48)";
const bulgeSource = "NICE interventional text: may stay silent; can cause blockage, ischaemia, strangulation";
const emergency = "Call the emergency service or the surgeon on call now.";

/** Prolapse, bulge, retraction, separation, narrowing. */
export const shapeSigns: readonly WarningSign[] = [
  {
    id: "prolapseInTrouble",
    level: "now",
    sign: "The stoma is longer, and is dark, hard or painful, or does not go back.",
    act: emergency,
    when: {
      any: [
        { is: "prolapse", oneOf: ["stuck"] },
        {
          all: [
            { is: "prolapse", oneOf: ["known", "new"] },
            {
              any: [
                { yes: "prolapseHardOrPainful" },
                { is: "stomaColour", oneOf: ["darkPurple", "brown", "grey", "black"] },
              ],
            },
          ],
        },
      ],
    },
    source: reviews,
    certainty: "from memory",
  },
  {
    id: "bulgeInTrouble",
    level: "now",
    sign: "A bulge beside the stoma, with bad pain, hardness, vomiting or a change of colour.",
    act: emergency,
    when: {
      all: [
        { yes: "bulge" },
        {
          any: [
            { yes: "bulgeSeverePain" },
            { yes: "bulgeHard" },
            { yes: "vomiting" },
            { is: "stomaColour", oneOf: ["darkPurple", "brown", "grey", "black", "veryPale"] },
          ],
        },
      ],
    },
    source: bulgeSource,
    certainty: "read in the source",
  },
  {
    id: "bulgeOrProlapseNoOutput",
    level: "now",
    sign: "A bulge or a longer stoma, and no output for {noOutputCrampHours}.",
    act: emergency,
    stomaTypes: ["ileostomy", "fistula", "other"],
    when: {
      all: [
        { any: [{ yes: "bulge" }, { is: "prolapse", oneOf: ["known", "new", "stuck"] }] },
        { number: "hoursSinceOutput", atLeast: { protocol: "noOutputCrampHours" } },
      ],
    },
    source: `${bulgeSource}; the hours are a judgement`,
    certainty: "judgement",
  },
  {
    id: "bulgeOrProlapseNoOutputColostomy",
    level: "now",
    sign: "A bulge or a longer stoma, and no output for {noOutputColostomyHours}.",
    act: emergency,
    stomaTypes: ["colostomy"],
    when: {
      all: [
        { any: [{ yes: "bulge" }, { is: "prolapse", oneOf: ["known", "new", "stuck"] }] },
        { number: "hoursSinceOutput", atLeast: { protocol: "noOutputColostomyHours" } },
      ],
    },
    mutedByIrrigation: true,
    source: `${bulgeSource}; the hours are a judgement`,
    certainty: "judgement",
  },
  {
    id: "separationDeep",
    level: "now",
    sign: "Stoma and skin have parted deeply, with fever or pain in the belly.",
    act: emergency,
    when: {
      all: [
        { is: "separation", oneOf: ["deep"] },
        {
          any: [
            { yes: "bellyPain" },
            { number: "temperatureCelsius", atLeast: { protocol: "feverCelsius" } },
          ],
        },
      ],
    },
    source: "Reviews of stoma complications",
    certainty: "judgement",
  },
  {
    id: "separation",
    level: "sameDay",
    sign: "Stoma and skin have parted.",
    act: "Call the nurse today.",
    when: { is: "separation", oneOf: ["shallow", "deep"] },
    source: "Reviews of stoma complications",
    certainty: "read in the source",
  },
  {
    id: "retractionEarly",
    level: "sameDay",
    sign: "The stoma has sunk below the skin within {retractionEarlyDays} of surgery, with leaks or pain.",
    act: "Call the nurse today.",
    when: {
      all: [
        { dayAtMost: { protocol: "retractionEarlyDays" } },
        { yes: "sunkBelowSkin" },
        { any: [{ yes: "leaking" }, { yes: "bellyPain" }] },
      ],
    },
    source: "Reviews of stoma complications",
    certainty: "from memory",
  },
  {
    id: "narrow",
    level: "sameDay",
    sign: "Output comes only as a thin ribbon or a forced thin stream.",
    act: "Call the nurse today.",
    when: { yes: "thinStream" },
    source: "New Zealand ostomy text (of urostomies: a thin long stream)",
    certainty: "read in the source",
  },
  {
    id: "rodOrStent",
    level: "sameDay",
    sign: "The rod or a stent has come out or moved.",
    act: "Leave it as it is and call the nurse or surgeon today.",
    when: { any: [{ yes: "rodMoved" }, { yes: "stentOut" }] },
    source: "No source found",
    certainty: "common practice, no source",
  },
  {
    id: "prolapseNew",
    level: "sameDay",
    sign: "The stoma is longer since lately, and goes back.",
    act: "Call the nurse today, and have it measured.",
    when: { is: "prolapse", oneOf: ["new"] },
    source: reviews,
    certainty: "from memory",
  },
  {
    id: "prolapseKnown",
    level: "nextContact",
    sign: "The stoma is longer, as before, and goes back.",
    act: "Tell the nurse at the next contact, and have it measured.",
    when: { is: "prolapse", oneOf: ["known"] },
    source: reviews,
    certainty: "from memory",
  },
  {
    id: "bulge",
    level: "nextContact",
    sign: "A bulge beside the stoma that gives no trouble.",
    act: "Tell the nurse at the next contact.",
    when: { yes: "bulge" },
    source: bulgeSource,
    certainty: "read in the source",
  },
  {
    id: "retraction",
    level: "nextContact",
    sign: "The stoma has sunk below the skin.",
    act: "Tell the nurse at the next contact.",
    when: { yes: "sunkBelowSkin" },
    source: "Reviews of stoma complications",
    certainty: "from memory",
  },
];
