import type { Condition } from "../condition.ts";
import type { WarningSign } from "../row.ts";

const fever: Condition = { number: "temperatureCelsius", atLeast: { protocol: "feverCelsius" } };
const infected: Condition = { any: [fever, { yes: "shivering" }, { yes: "woundRedOrPus" }] };

export const infectionSigns: readonly WarningSign[] = [
  {
    id: "sepsis",
    level: "now",
    sign: "Fever, chills or a red wound, with confusion, fast breath, fainting or mottled skin.",
    act: "Call the emergency service now, and say that it may be sepsis.",
    when: {
      all: [
        infected,
        { any: [{ yes: "confused" }, { yes: "fastBreath" }, { yes: "fainted" }, { yes: "mottledSkin" }] },
      ],
    },
    source: "Sepsis practice",
    certainty: "from memory",
  },
  {
    id: "fever",
    level: "sameDay",
    sign: "Fever of {feverCelsius} or more, shaking chills, or a wound that is red or runs with pus.",
    act: "Call the nurse or surgeon today.",
    when: infected,
    source: "Sepsis practice",
    certainty: "from memory",
  },
];
