import type { WarningSign } from "../row.ts";

export const skinSigns: readonly WarningSign[] = [
  {
    id: "skinOpen",
    level: "sameDay",
    sign: "Skin is open, weeping or a sore that spreads, or no pouch stays on.",
    act: "Call the nurse today.",
    when: { any: [{ yes: "skinOpenOrWeeping" }, { yes: "cannotKeepSeal" }] },
    source: "American Cancer Society",
    certainty: "read in the source",
  },
  {
    id: "violetUlcer",
    level: "sameDay",
    sign: "A very painful sore with a violet edge.",
    act: "Call the nurse today; do not scrub or cut it.",
    when: { yes: "violetUlcer" },
    source: "Dermatology reviews",
    certainty: "from memory",
  },
  {
    id: "itchyRash",
    level: "nextContact",
    sign: "An itching rash with small spots round it.",
    act: "Tell the nurse within two days.",
    when: { yes: "itchyRashWithSpots" },
    source: "Nursing texts",
    certainty: "from memory",
  },
];
