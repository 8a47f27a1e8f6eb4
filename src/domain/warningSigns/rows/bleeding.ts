import type { WarningSign } from "../row.ts";

const bleedingAsked = ["notStopping", "largeClots", "fromInside", "atSeveralEmpties"];

export const bleedingSigns: readonly WarningSign[] = [
  {
    id: "stomaColour",
    level: "now",
    sign: "The stoma is dark purple, brown, grey, black or very pale.",
    act: "Call the emergency service or the surgeon on call now.",
    when: { is: "stomaColour", oneOf: ["darkPurple", "brown", "grey", "black", "veryPale"] },
    source:
      "Stoma complications, Clin Colon Rectal Surg 2017;30:193 (necrosis); the colours from nursing texts",
    certainty: "from memory",
  },
  {
    id: "bleedingHeavy",
    level: "now",
    sign: "The stoma bleeds heavily, or bleeding makes the person faint or dizzy.",
    act: "Press gently with a cold damp cloth and call the emergency service now.",
    when: {
      any: [
        { yes: "bleedingHeavy" },
        {
          all: [
            { is: "bleeding", oneOf: [...bleedingAsked, "atJunction"] },
            { any: [{ yes: "fainted" }, { yes: "dizzyOnStanding" }] },
          ],
        },
      ],
    },
    source: "Patient association list; association of ostomy text",
    certainty: "read in the source",
  },
  {
    id: "bleedingWithLiverDisease",
    level: "now",
    sign: "Bleeding from the stoma or its edge in a person with a liver disease.",
    act: "Press gently and call the emergency service now: widened veins may bleed hard.",
    when: {
      all: [{ yes: "liverDisease" }, { is: "bleeding", oneOf: [...bleedingAsked, "atJunction"] }],
    },
    source: "Surgery review 2017 (varices round a stoma)",
    certainty: "from memory",
  },
  {
    id: "bleedingCut",
    level: "now",
    sign: "A deep cut in the stoma that bleeds.",
    act: "Press gently and call the emergency service or the surgeon on call now.",
    when: {
      all: [{ yes: "deepCut" }, { is: "bleeding", oneOf: [...bleedingAsked, "atJunction"] }],
    },
    source: "Patient association list",
    certainty: "read in the source",
  },
  {
    id: "bleedingNotStopping",
    level: "sameDay",
    sign: "Bleeding that does not stop under gentle pressure ({bleedingPressMinutes}), large clots, blood from inside, or blood at several emptyings.",
    act: "Press gently and call the nurse or surgeon today; if it gets more, call now.",
    when: { is: "bleeding", oneOf: bleedingAsked },
    source: "Patient association list; the minutes are habit",
    certainty: "read in the source",
  },
  {
    id: "bleedingAtJunction",
    level: "sameDay",
    sign: "It bleeds all the time where stoma and skin meet.",
    act: "Call the nurse today.",
    when: { is: "bleeding", oneOf: ["atJunction"] },
    source: "Patient association list",
    certainty: "read in the source",
  },
  {
    id: "deepCut",
    level: "sameDay",
    sign: "A deep cut in the stoma.",
    act: "Call the nurse or surgeon today, and have the opening measured.",
    when: { yes: "deepCut" },
    source: "Patient association list",
    certainty: "read in the source",
  },
  {
    id: "oozeOnWiping",
    level: "nextContact",
    sign: "A little blood on wiping, which stops by itself.",
    act: "Wipe gently; tell the nurse at the next contact. A stoma has many small vessels.",
    when: { is: "bleeding", oneOf: ["onWiping"] },
    source: "Patient association text",
    certainty: "read in the source",
  },
];
