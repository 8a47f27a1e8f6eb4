import type { WarningSign } from "../row.ts";

const ostomySociety = "New Zealand ostomy society";
const dry = "No open source found for the hours; urine runs all the time, so a dry pouch is never normal";

export const urostomySigns: readonly WarningSign[] = [
  {
    id: "urostomyDryLong",
    level: "now",
    sign: "No urine for {urostomyNoUrineUrgentHours}.",
    act: "Look for a kink, the night tube and the valve; then call the emergency service or urologist now.",
    stomaTypes: ["urostomy"],
    when: { number: "hoursSinceUrine", atLeast: { protocol: "urostomyNoUrineUrgentHours" } },
    source: dry,
    certainty: "common practice, no source",
  },
  {
    id: "urostomyDryUnwell",
    level: "now",
    sign: "No urine for {urostomyDrySpellHours}, with pain in the flank, fever or vomiting.",
    act: "Call the emergency service or urologist now.",
    stomaTypes: ["urostomy"],
    when: {
      all: [
        { number: "hoursSinceUrine", atLeast: { protocol: "urostomyDrySpellHours" } },
        {
          any: [
            { yes: "flankPain" },
            { yes: "vomiting" },
            { number: "temperatureCelsius", atLeast: { protocol: "feverCelsius" } },
          ],
        },
      ],
    },
    source: dry,
    certainty: "common practice, no source",
  },
  {
    id: "urostomySepsis",
    level: "now",
    sign: "Fever with pain in the flank or back, or shaking chills.",
    act: "Call the emergency service or urologist now: the kidneys may be infected.",
    stomaTypes: ["urostomy"],
    when: {
      any: [
        { yes: "shivering" },
        {
          all: [
            { number: "temperatureCelsius", atLeast: { protocol: "feverCelsius" } },
            { yes: "flankPain" },
          ],
        },
      ],
    },
    source: "Urostomy texts",
    certainty: "read in the source",
  },
  {
    id: "urostomyAcid",
    level: "now",
    sign: "Unusual sleepiness, or deep fast breath.",
    act: "Call the emergency service or urologist now: urine taken up by the bowel can turn the blood acid.",
    stomaTypes: ["urostomy"],
    when: { any: [{ yes: "drowsy" }, { yes: "overBreathing" }] },
    source: ostomySociety,
    certainty: "read in the source",
  },
  {
    id: "urostomyDry",
    level: "sameDay",
    sign: "No urine for {urostomyNoUrineHours}.",
    act: "Look for a kink, the night tube and the valve; then call the nurse or urologist at once.",
    stomaTypes: ["urostomy"],
    when: { number: "hoursSinceUrine", atLeast: { protocol: "urostomyNoUrineHours" } },
    source: dry,
    certainty: "common practice, no source",
  },
  {
    id: "bloodyUrine",
    level: "sameDay",
    sign: "Clots of blood in the urine.",
    act: "Call the nurse or urologist today.",
    stomaTypes: ["urostomy"],
    when: { yes: "bloodyUrine" },
    source: "No source found",
    certainty: "common practice, no source",
  },
  {
    id: "cloudyUrine",
    level: "nextContact",
    sign: "Urine that is only cloudy, smelling or threaded with mucus.",
    act: "Tell the nurse at the next contact. Mucus is normal; a specimen from the pouch tells nothing.",
    stomaTypes: ["urostomy"],
    when: { yes: "cloudyOrSmelly" },
    source: ostomySociety,
    certainty: "read in the source",
  },
  {
    id: "crystals",
    level: "nextContact",
    sign: "Crystals or grit on skin or stoma.",
    act: "Tell the nurse at the next contact.",
    stomaTypes: ["urostomy"],
    when: { yes: "crystals" },
    source: ostomySociety,
    certainty: "read in the source",
  },
];
